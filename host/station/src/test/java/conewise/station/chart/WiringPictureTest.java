package conewise.station.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class WiringPictureTest {
  private static final long SEED = 7011;

  private static final Circuit TWO_OF_TWO =
      Circuit.parallel(
          Circuit.series(Circuit.coil("left", 1), Circuit.coil("left", 2)),
          Circuit.series(new Coil("right", 1, true), Circuit.coil("right", 2)));

  private static Document drawn(Circuit wiring) throws Exception {
    String svg = WiringPicture.draw(wiring, coil -> "3.6 ohm", "w");
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static List<Element> all(Document svg, String tag, String style) {
    List<Element> found = new ArrayList<>();
    NodeList nodes = svg.getElementsByTagName(tag);
    for (int i = 0; i < nodes.getLength(); i++) {
      Element element = (Element) nodes.item(i);
      if (List.of(element.getAttribute("class").split(" ", -1)).contains(style)) {
        found.add(element);
      }
    }
    return found;
  }

  /** Followed by hand from terminal to terminal. */
  @Test
  void leadsJoinTheTerminalsThatAWiringJoins() {
    List<Lead> leads = WiringPicture.leads(TWO_OF_TWO);
    assertEquals(List.of("A", "B", "C", "D"), leads.stream().map(Lead::letter).toList());
    assertEquals(
        List.of("+ of the box", "+ of coil 1 of left", "- of coil 1 of right"),
        leads.get(0).ends());
    assertEquals(List.of("- of coil 1 of left", "+ of coil 2 of left"), leads.get(1).ends());
    assertEquals(List.of("+ of coil 1 of right", "+ of coil 2 of right"), leads.get(2).ends());
    assertEquals(
        List.of("- of the box", "- of coil 2 of left", "- of coil 2 of right"),
        leads.get(3).ends());
    assertEquals(Lead.Colour.VERMILION, leads.get(0).colour());
    assertEquals(Lead.Colour.BLACK, leads.get(3).colour());
  }

  @Test
  void everyCoilHasAPlusAndAMinusAndTheReversedOneIsMarkedInWordsAndByAFrame() throws Exception {
    Document svg = drawn(TWO_OF_TWO);
    assertEquals(4, all(svg, "path", "winding").size());
    // Each coil's, and the box's.
    assertEquals(4 + 1, all(svg, "circle", "plus").size());
    assertEquals(4 + 1, all(svg, "circle", "minus").size());
    assertEquals(1, all(svg, "polygon", "turned").size());
    List<String> names = all(svg, "text", "part").stream().map(Element::getTextContent).toList();
    assertEquals(1, names.stream().filter("right, reversed"::equals).count(), names.toString());
  }

  @Test
  void everyLeadIsDrawnInItsColourAndBearsItsLetter() throws Exception {
    Document svg = drawn(TWO_OF_TWO);
    List<String> letters =
        all(svg, "text", "letter").stream().map(Element::getTextContent).distinct().toList();
    assertEquals(4, letters.size(), letters.toString());
    for (String colour : List.of("vermilion", "sky-blue", "orange", "black")) {
      assertFalse(all(svg, "polyline", colour).isEmpty(), colour);
    }
  }

  @Test
  void theSameLetterIsTheSameColourAlsoWhereColoursComeAgain() {
    List<Circuit> coils = new ArrayList<>();
    for (int i = 1; i <= 40; i++) {
      coils.add(Circuit.coil("d" + i, 1));
    }
    List<Lead> leads = WiringPicture.leads(new Circuit.Series(coils));
    assertEquals(41, leads.stream().map(Lead::letter).distinct().count());
    assertEquals("AA", leads.get(26).letter());
    for (int i = 1; i < 40; i++) {
      assertTrue(leads.get(i).colour() != leads.get(i + 1).colour(), "neighbours look alike");
    }
  }

  @Test
  void everyTreeOfOneToEightDriversOfTwoCoilsStaysWithinItsPageAndInNoCoilOfAnother()
      throws Exception {
    Random random = new Random(SEED);
    for (int run = 0; run < 60; run++) {
      int drivers = 1 + run % 8;
      List<Circuit> coils = new ArrayList<>();
      for (int i = 1; i <= drivers; i++) {
        String name = ("driver " + i + " of a long name".repeat(run % 3)).strip();
        coils.add(new Coil(name, 1, random.nextBoolean()));
        coils.add(new Coil(name, 2, random.nextBoolean()));
      }
      Circuit tree = tree(coils, random);
      Document svg = drawn(tree);
      String about = "seed " + SEED + ", run " + run + ": " + tree;
      assertEquals(2 * drivers, all(svg, "path", "winding").size(), about);
      assertWithin(svg, about);
      assertApart(all(svg, "path", "winding"), about);
      assertNoEndIsLoose(svg, about);
    }
  }

  @Test
  void gapsBridgesAndResistancesOfAFaultyWiringAreDrawnByName() throws Exception {
    Document svg =
        drawn(
            Circuit.series(
                new Circuit.Resistance("leads", 0.1),
                Circuit.parallel(
                    new Circuit.Gap(),
                    Circuit.parallel(new Circuit.Bridge(), Circuit.coil("x", 1)))));
    List<String> names = all(svg, "text", "part").stream().map(Element::getTextContent).toList();
    assertTrue(names.containsAll(List.of("leads", "open", "short", "x")), names.toString());
  }

  @Test
  void namesThatMeanSomethingInSvgAreEscaped() throws Exception {
    Document svg = drawn(Circuit.coil("<a> & b", 1));
    assertEquals("<a> & b", all(svg, "text", "part").get(0).getTextContent());
  }

  private static Circuit tree(List<Circuit> parts, Random random) {
    List<Circuit> left = new ArrayList<>(parts);
    while (left.size() > 1) {
      int take = Math.min(left.size(), 2 + random.nextInt(4));
      int from = random.nextInt(left.size() - take + 1);
      List<Circuit> some = List.copyOf(left.subList(from, from + take));
      left.subList(from, from + take).clear();
      left.add(from, random.nextBoolean() ? new Circuit.Series(some) : new Circuit.Parallel(some));
    }
    return left.get(0);
  }

  private static void assertWithin(Document svg, String about) {
    String[] box = svg.getDocumentElement().getAttribute("viewBox").split(" ", -1);
    double width = Double.parseDouble(box[2]);
    double height = Double.parseDouble(box[3]);
    for (Element lead : all(svg, "polyline", "lead")) {
      for (double[] at : points(lead)) {
        boolean within = at[0] >= 0 && at[0] <= width && at[1] >= 0 && at[1] <= height;
        assertTrue(within, at[0] + "," + at[1] + ", " + about);
      }
    }
  }

  /** Each end of a line meets a terminal or another line of its colour. */
  private static void assertNoEndIsLoose(Document svg, String about) {
    List<Element> lines = all(svg, "polyline", "lead");
    List<double[]> terminals = new ArrayList<>();
    for (String sign : List.of("plus", "minus")) {
      for (Element each : all(svg, "circle", sign)) {
        terminals.add(
            new double[] {
              Double.parseDouble(each.getAttribute("cx")),
              Double.parseDouble(each.getAttribute("cy")),
              Double.parseDouble(each.getAttribute("r"))
            });
      }
    }
    for (Element line : lines) {
      List<double[]> points = points(line);
      for (double[] end : List.of(points.get(0), points.get(points.size() - 1))) {
        boolean atTerminal =
            terminals.stream().anyMatch(t -> Math.hypot(end[0] - t[0], end[1] - t[1]) < t[2] + 0.5);
        boolean onLine =
            lines.stream()
                .filter(other -> other != line)
                .filter(o -> o.getAttribute("class").equals(line.getAttribute("class")))
                .anyMatch(other -> touches(points(other), end));
        assertTrue(atTerminal || onLine, end[0] + "," + end[1] + " is loose, " + about);
      }
    }
  }

  private static List<double[]> points(Element line) {
    List<double[]> points = new ArrayList<>();
    for (String point : line.getAttribute("points").strip().split(" ", -1)) {
      String[] xy = point.split(",", -1);
      points.add(new double[] {Double.parseDouble(xy[0]), Double.parseDouble(xy[1])});
    }
    return points;
  }

  /** All lines are level or upright. */
  private static boolean touches(List<double[]> line, double[] at) {
    for (int i = 1; i < line.size(); i++) {
      double[] a = line.get(i - 1);
      double[] b = line.get(i);
      if (at[0] >= Math.min(a[0], b[0]) - 0.5
          && at[0] <= Math.max(a[0], b[0]) + 0.5
          && at[1] >= Math.min(a[1], b[1]) - 0.5
          && at[1] <= Math.max(a[1], b[1]) + 0.5) {
        return true;
      }
    }
    return false;
  }

  private static void assertApart(List<Element> windings, String about) {
    Pattern start = Pattern.compile("M([-0-9.]+),([-0-9.]+)");
    List<double[]> places = new ArrayList<>();
    for (Element winding : windings) {
      Matcher matcher = start.matcher(winding.getAttribute("d"));
      assertTrue(matcher.find(), about);
      double[] here = {Double.parseDouble(matcher.group(1)), Double.parseDouble(matcher.group(2))};
      for (double[] other : places) {
        boolean apart = Math.abs(here[0] - other[0]) > 100 || Math.abs(here[1] - other[1]) > 50;
        assertTrue(apart, "two coils at " + here[0] + "," + here[1] + ", " + about);
      }
      places.add(here);
    }
  }
}
