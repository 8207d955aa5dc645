package conewise.station.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.chart.FaultCurves.Curve;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class FaultCurvesTest {
  private static Curve flat(String name, double ohm) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      points.add(new ImpedancePoint(10 * Math.pow(40, i / 59.0), ohm, 0, Optional.empty()));
    }
    return new Curve(name, points);
  }

  private static Document parsed(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static List<Element> all(Document svg, String tag, String style) {
    List<Element> found = new ArrayList<>();
    NodeList nodes = svg.getElementsByTagName(tag);
    for (int i = 0; i < nodes.getLength(); i++) {
      if (((Element) nodes.item(i)).getAttribute("class").equals(style)) {
        found.add((Element) nodes.item(i));
      }
    }
    return found;
  }

  private static double y(Document svg, String style) {
    String first =
        all(svg, "polyline", style).get(0).getAttribute("points").strip().split(" ", -1)[0];
    return Double.parseDouble(first.split(",", -1)[1]);
  }

  @Test
  void everyCurveHasAStyleAndANameOfItsOwnOnIt() throws Exception {
    Document svg =
        parsed(
            FaultCurves.wide(
                flat("good", 8), List.of(flat("P1", 4), flat("W1", 16)), List.of(), "id"));
    List<String> names =
        all(svg, "text", "tagged").stream().map(Element::getTextContent).sorted().toList();
    assertEquals(List.of("P1", "W1", "good"), names);
    assertEquals(1, all(svg, "polyline", "curve fault-1").size());
    assertEquals(1, all(svg, "polyline", "curve fault-2").size());
  }

  /** Half and double lie as far below as above: the axis is logarithmic. */
  @Test
  void equalFactorsAreEqualSteps() throws Exception {
    Document svg =
        parsed(
            FaultCurves.wide(
                flat("good", 8), List.of(flat("P1", 4), flat("W1", 16)), List.of(), "id"));
    double good = y(svg, "curve good");
    assertEquals(y(svg, "curve fault-1") - good, good - y(svg, "curve fault-2"), 0.2);
  }

  @Test
  void aCurveFarOffTheAxisIsNotDrawnOnItsEdgeButItsNameHasAnArrow() throws Exception {
    Document svg = parsed(FaultCurves.narrow(flat("good", 8), List.of(flat("W7", 0.01)), "id"));
    assertEquals(0, all(svg, "polyline", "curve fault-1").size());
    List<String> names = all(svg, "text", "tagged").stream().map(Element::getTextContent).toList();
    assertTrue(names.contains("W7 \u2193"), names.toString());
  }

  @Test
  void moreCurvesThanCanBeToldApartAreRefused() {
    List<Curve> six = Collections.nCopies(FaultCurves.MOST + 1, flat("P1", 4));
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () -> FaultCurves.narrow(flat("good", 8), six, "id"))
            .getMessage();
    assertTrue(message.contains("6 curves") && message.contains("at most 5"), message);
  }
}
