package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.station.answer.SchemaCheck;
import conewise.station.files.ImpedanceTable;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** What a fit writes: the page, and a subcircuit that ngspice runs to the measured curve. */
class FitFilesTest {
  private static final Path NGSPICE = Path.of("/usr/bin/ngspice");
  private static final Path ROOT = Path.of("..", "..");
  private static final String PLANS = "src/main/resources/conewise/plans/";

  @TempDir Path folder;

  private static CommandRun run(String... words) {
    CommandRun run = CommandRun.of(words);
    assertEquals(0, run.exitCode(), run.err());
    return run;
  }

  /** Sweeps a world's box with its own jig, calibrated. */
  private Path sweep(String world, String name) {
    String jig = folder.resolve(name + "-jig.json").toString();
    run("calibrate", "--virtual", world, "--resistor", "10", "--tolerance", "1", "--out", jig);
    Path curve = folder.resolve(name);
    run("sweep", "--virtual", world, "--calibration", jig, "--out", curve.toString());
    return curve;
  }

  private static List<Element> of(Document page, String tag, String style) {
    NodeList all = page.getElementsByTagName(tag);
    return java.util.stream.IntStream.range(0, all.getLength())
        .mapToObj(i -> (Element) all.item(i))
        .filter(each -> each.getAttribute("class").equals(style))
        .toList();
  }

  /** The page as XML, which it is but for the tags that HTML leaves open. */
  private static Document parsed(Path file) throws Exception {
    String text =
        Files.readString(file)
            .replaceFirst("<!DOCTYPE html>", "")
            .replaceAll("<meta [^>]*>", "")
            .replaceAll("(?s)<style>.*?</style>", "");
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(text)));
  }

  @Test
  void theReportOfABoxShowsEachPointThreeTimesOverAndStandsAlone() throws Exception {
    Path curve = sweep("heron", "heron.csv");
    Path page = folder.resolve("heron.html");
    CommandRun run =
        run("fit", curve.toString(), "--plan", PLANS + "heron.yaml", "--report", page.toString());
    assertTrue(run.out().contains("The report is in " + page), run.out());
    String text = Files.readString(page);
    assertFalse(text.contains("<script") || text.contains("url(") || text.contains("src="), text);
    assertFalse(text.contains("NaN") || text.contains("Infinity"), "a number that is none");
    Document document = parsed(page);
    long points =
        ImpedanceTable.read(curve).points().stream().filter(p -> p.frequencyHz() > 0).count();
    // Modulus, phase, both residuals, Nyquist plot, and one in each of three legends.
    assertEquals(5 * points + 3, of(document, "circle", "measured").size());
    assertEquals(3, of(document, "polyline", "fitted").size());
    assertEquals(3, of(document, "polygon", "explained").size());
    assertEquals(3, of(document, "polygon", "noise").size());
    assertTrue(text.contains("tuning, fitted") && text.contains("not the tuning: it lies"), text);
    assertTrue(text.contains("The fit leaves "), text);
  }

  /** Both axes of a Nyquist plot have one scale: a step is as wide as it is high. */
  @Test
  void theNyquistPlotHasEqualScales() throws Exception {
    Path page = folder.resolve("heron.html");
    String curve = sweep("heron", "heron.csv").toString();
    run("fit", curve, "--plan", PLANS + "heron.yaml", "--report", page.toString());
    String svg = Files.readString(page);
    svg = svg.substring(svg.indexOf("nyquist-0-title"));
    double[] x = steps(svg, "x1=\"([0-9.]+)\" y1=\"34.0\"");
    double[] y = steps(svg, "x1=\"62.0\" y1=\"([0-9.]+)\"");
    assertEquals(x[1] - x[0], Math.abs(y[1] - y[0]), 0.25);
  }

  private static double[] steps(String svg, String line) {
    return java.util.regex.Pattern.compile(line)
        .matcher(svg)
        .results()
        .mapToDouble(found -> Double.parseDouble(found.group(1)))
        .distinct()
        .skip(1)
        .limit(2)
        .toArray();
  }

  @Test
  void theReportOfABareDriverHasAPictureForEachSweep() throws Exception {
    String free =
        sweep(ROOT.resolve("docs/examples/bittern.yaml").toString(), "free.csv").toString();
    String mass =
        sweep(ROOT.resolve("docs/examples/bittern-with-mass.yaml").toString(), "mass.csv")
            .toString();
    Path page = folder.resolve("driver.html");
    run("fit", free, "--with-mass", "60=" + mass, "--report", page.toString());
    Document document = parsed(page);
    assertEquals(6, of(document, "polyline", "fitted").size());
    assertTrue(Files.readString(page).contains("60 g on the cone"));
  }

  @Test
  void namesInAPlanCannotWriteIntoThePageOrTheCircuit() throws Exception {
    String curve = sweep("heron", "heron.csv").toString();
    Path plan = folder.resolve("odd.yaml");
    Files.writeString(
        plan,
        Files.readString(Path.of(PLANS + "heron.yaml"))
            .replace("name: Heron, two 10 inch, vented", "name: '<b>&\"x'"));
    Path page = folder.resolve("odd.html");
    Path circuit = folder.resolve("odd.cir");
    run(
        "fit",
        curve,
        "--plan",
        plan.toString(),
        "--report",
        page.toString(),
        "--spice",
        circuit.toString());
    assertFalse(Files.readString(page).contains("<b>&\"x"), "escaped");
    parsed(page);
    assertTrue(Files.readString(circuit).contains(".subckt box_b_x plus minus"));
  }

  /**
   * Root mean square of what ngspice's curve, times the scale that the file states, departs from
   * the measured one: a little over the noise of the quick sweep, 0.8 % a point.
   */
  private double departure(Path curve, Path circuit) throws Exception {
    String text = Files.readString(circuit);
    String name = text.replaceAll("(?s).*\\.subckt (\\S+) plus minus.*", "$1");
    double scale =
        Double.parseDouble(text.replaceAll("(?s).*measured curve is ([0-9.]+) times.*", "$1"));
    ImpedanceCurve measured = ImpedanceTable.read(curve);
    StringBuilder deck = new StringBuilder("check\n.include " + circuit + "\n");
    deck.append("I1 0 in dc 0 ac 1\nX1 in 0 ").append(name).append("\n.control\nset numdgt=12\n");
    List<ImpedancePoint> points =
        measured.points().stream().filter(point -> point.frequencyHz() > 0).toList();
    for (int i = 0; i < points.size(); i += 4) {
      double hz = points.get(i).frequencyHz();
      deck.append(String.format(Locale.ROOT, "ac lin 1 %.12g %.12g\n", hz, hz));
      deck.append("wrdata ").append(folder.resolve("z" + i + ".txt")).append(" v(in)\n");
    }
    deck.append("quit\n.endc\n.end\n");
    ngspice(deck.toString());
    double sum = 0;
    int count = 0;
    for (int i = 0; i < points.size(); i += 4, count++) {
      Path result = folder.resolve("z" + i + ".txt");
      String[] words = Files.readString(result).trim().split("\\s+", -1);
      double re = scale * Double.parseDouble(words[1]) - points.get(i).resistanceOhm();
      double im = scale * Double.parseDouble(words[2]) - points.get(i).reactanceOhm();
      sum += Math.pow(Math.hypot(re, im) / points.get(i).modulusOhm(), 2);
    }
    return Math.sqrt(sum / count);
  }

  private void ngspice(String deck) throws Exception {
    Path file = Files.writeString(folder.resolve("deck.cir"), deck);
    Process process =
        new ProcessBuilder(NGSPICE.toString(), "-b", file.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log.txt").toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "ngspice did not end within 60 s");
  }

  private static void requireNgspice() {
    boolean present = Files.isExecutable(NGSPICE);
    assertTrue(present || !"true".equals(System.getenv("CI")), NGSPICE + " is missing");
    assumeTrue(present, NGSPICE + " is missing; install the package ngspice to run this check");
  }

  @Test
  void ngspiceRunsTheSubcircuitsOfBoxAndDriverToTheMeasuredCurves() throws Exception {
    requireNgspice();
    for (String box : List.of("heron", "dipper", "wren")) {
      Path curve = sweep(box, box + ".csv");
      Path circuit = folder.resolve(box + ".cir");
      CommandRun run =
          run(
              "fit",
              curve.toString(),
              "--plan",
              PLANS + box + ".yaml",
              "--spice",
              circuit.toString(),
              "--json");
      JsonNode answer = new ObjectMapper().readTree(run.out());
      assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer), run.out());
      assertTrue(answer.at("/spice/worst_relative").asDouble() <= 0.005, run.out());
      double departure = departure(curve, circuit);
      System.out.printf(Locale.ROOT, "%s: ngspice %.2f %% rms off%n", box, 100 * departure);
      assertEquals(0, departure, 0.016, box);
    }
    Path free = sweep(ROOT.resolve("docs/examples/bittern.yaml").toString(), "free.csv");
    Path circuit = folder.resolve("driver.cir");
    run("fit", free.toString(), "--spice", circuit.toString());
    assertEquals(0, departure(free, circuit), 0.016);
  }

  @Test
  void whatCannotBeWrittenIsSaid() {
    String curve = sweep("dipper", "dipper.csv").toString();
    for (String option : List.of("--report", "--spice")) {
      CommandRun run =
          CommandRun.of(
              "fit", curve, "--plan", PLANS + "dipper.yaml", option, folder + "/none/file.x");
      assertEquals(74, run.exitCode(), run.out());
      assertTrue(run.err().contains("cannot be written"), run.err());
    }
  }
}
