package conewise.station.lab;

import conewise.analysis.diagnosis.State;
import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.BoxFigures;
import conewise.station.box.BoxAnswer;
import conewise.station.box.BoxSweep;
import conewise.station.driver.BareDriver;
import conewise.station.driver.DriverFigure;
import conewise.station.driver.DriverState;
import conewise.station.driver.DriverSweep;
import conewise.station.driver.KnownOfDriver;
import conewise.station.files.ImpedanceTable;
import conewise.station.planfile.PlannedBoxFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Does a student's work from the files alone, by the project's own fit, which shares no physics
 * with the simulator that made them. What the fit refuses to tell is answered as "cannot be
 * determined".
 */
final class SolvedByFit {
  private static final String OPEN = ",cannot be determined,";
  private static final double PEAK = 1.15;

  private final Path folder;
  private final List<String> lines = new ArrayList<>(List.of("question,value,unit"));
  private String experiment = "";

  SolvedByFit(Path folder) {
    this.folder = folder;
  }

  String answers(List<Experiment> experiments) throws Exception {
    for (Experiment each : experiments) {
      experiment = each.word();
      switch (each) {
        case FREE_AIR -> freeAir();
        case ADDED_MASS -> addedMass();
        case CLOSED_BOX -> closedBox();
        case VENTED_BOX -> vented();
        case LOSSES -> losses();
        case CIRCLE -> circle();
        case VOICE_COIL -> voiceCoil();
        case POLARITY -> polarity();
      }
    }
    return String.join("\n", lines) + "\n";
  }

  private void say(String name, double value, String unit) {
    lines.add(experiment + "." + name + "," + value + "," + unit);
  }

  private void say(String name, String word) {
    lines.add(experiment + "." + name + "," + word + ",");
  }

  private void open(String name) {
    lines.add(experiment + "." + name + OPEN);
  }

  private Path file(String name) {
    return folder.resolve(experiment).resolve(name);
  }

  private ImpedanceCurve curve(String stem) throws Exception {
    return ImpedanceTable.read(file(stem + ".csv"));
  }

  /** A number that the task sheet states. */
  private double given(String pattern) throws Exception {
    Matcher matcher = Pattern.compile(pattern).matcher(Files.readString(file("task.md")));
    if (!matcher.find()) {
      throw new AssertionError(pattern + " is not in the task of " + experiment);
    }
    return Double.parseDouble(matcher.group(1));
  }

  private Map<String, Outcome<Estimate>> driver(OptionalDouble area, DriverSweep... others)
      throws Exception {
    List<DriverSweep> sweeps = new ArrayList<>();
    sweeps.add(new DriverSweep(file("free.csv"), new DriverState.FreeAir(), curve("free")));
    sweeps.addAll(List.of(others));
    BareDriver fitted =
        found(BareDriver.of(sweeps, new KnownOfDriver(area, OptionalDouble.empty(), 1)));
    Map<String, Outcome<Estimate>> figures = new HashMap<>();
    for (DriverFigure each : fitted.figures()) {
      figures.put(each.symbol(), each.outcome());
    }
    return figures;
  }

  private static <T> T found(Outcome<T> outcome) {
    if (outcome instanceof NoResult<T> none) {
      throw new AssertionError(none.because());
    }
    return ((Found<T>) outcome).value();
  }

  private static double value(Map<String, Outcome<Estimate>> figures, String symbol) {
    return found(figures.get(symbol)).value();
  }

  private void freeAir() throws Exception {
    Map<String, Outcome<Estimate>> figures = driver(OptionalDouble.empty());
    say("fs", value(figures, "fs"), "Hz");
    say("re", value(figures, "Re") * 1000, "mohm");
    say("qms", value(figures, "Qms"), "");
    say("qes", value(figures, "Qes"), "");
    say("qts", value(figures, "Qts"), "");
    if (figures.get("Mms") instanceof NoResult<Estimate>) {
      open("mms");
    }
    open("polarity");
  }

  private void addedMass() throws Exception {
    double gram = given("([0-9.]+) g is stuck");
    DriverSweep loaded =
        new DriverSweep(file("mass.csv"), new DriverState.WithMass(gram), curve("mass"));
    Map<String, Outcome<Estimate>> figures =
        driver(OptionalDouble.of(given("area is ([0-9.]+) cm2")), loaded);
    double mass = value(figures, "Mms");
    say("fm", value(figures, "fs") / Math.sqrt(1 + gram / mass), "Hz");
    say("mms", mass / 1000, "kg");
    say("cms", value(figures, "Cms"), "mm/N");
    say("rms", value(figures, "Rms"), "N s/m");
    say("bl", value(figures, "Bl"), "N/A");
    say("vas", value(figures, "Vas"), "litres");
  }

  private void closedBox() throws Exception {
    double litre = given("net volume is ([0-9.]+) litres");
    DriverSweep boxed =
        new DriverSweep(file("box.csv"), new DriverState.InBox(litre), curve("box"));
    Map<String, Outcome<Estimate>> figures = driver(OptionalDouble.empty(), boxed);
    double vas = value(figures, "Vas");
    double stiffer = Math.sqrt(1 + vas / litre);
    say("fc", value(figures, "fs") * stiffer, "Hz");
    say("qec", value(figures, "Qes") * stiffer, "");
    say("vas", vas / 1000, "m3");
    say("seam", highest("box") < 0.8 * highest("free") ? "leaky" : "tight");
    open("where");
  }

  private double highest(String stem) throws Exception {
    return curve(stem).points().stream()
        .filter(point -> point.frequencyHz() > 0)
        .mapToDouble(point -> Math.hypot(point.resistanceOhm(), point.reactanceOhm()))
        .max()
        .orElseThrow();
  }

  private BoxAnswer box() throws Exception {
    BoxSweep open = new BoxSweep(file("box.csv"), new State.AsBuilt(), curve("box"));
    BoxSweep closed =
        new BoxSweep(file("closed.csv"), new State.VentClosed("vent"), curve("closed"));
    return found(BoxAnswer.of(PlannedBoxFile.read(file("plan.yaml")), List.of(open, closed)));
  }

  private BoxFigures.SpaceFigure space() throws Exception {
    BoxAnswer answer = box();
    return BoxFigures.of(answer.fitted().fit(), answer.fitted().model()).spaces().get(0);
  }

  private void vented() throws Exception {
    CurveFeatures open = CurveFeatures.of(curve("box"));
    List<Extremum> peaks = peaks("box");
    double low = peaks.get(0).frequencyHz().value();
    double high = peaks.get(peaks.size() - 1).frequencyHz().value();
    double closed = peaks("closed").get(0).frequencyHz().value();
    double tuning = found(space().tuningHz()).value();
    double planned = given("tuned to ([0-9.]+) Hz");
    say("fl", low, "Hz");
    say("fh", high / 1000, "kHz");
    say("fc", closed, "Hz");
    say("dip", open.dipBetweenPeaks().orElseThrow().frequencyHz().value(), "Hz");
    double zero =
        open.phaseZerosHz().stream()
            .filter(each -> each.rising() && each.frequencyHz() > low && each.frequencyHz() < high)
            .findFirst()
            .orElseThrow()
            .frequencyHz();
    say("zero", zero, "Hz");
    say("three", Math.sqrt(low * low + high * high - closed * closed), "Hz");
    say("tuning", tuning, "Hz");
    double off = tuning / planned - 1;
    say("as-planned", Math.abs(off) < 0.05 ? "as planned" : off < 0 ? "too low" : "too high");
  }

  private List<Extremum> peaks(String stem) throws Exception {
    return CurveFeatures.of(curve(stem)).extrema().peaks().stream()
        .filter(peak -> peak.prominence() >= PEAK)
        .toList();
  }

  private void losses() throws Exception {
    CurveFeatures open = CurveFeatures.of(curve("box"));
    say("dip", open.dipBetweenPeaks().orElseThrow().modulusOhm().value(), "ohm");
    say("closed-peak", peaks("closed").get(0).modulusOhm().value(), "ohm");
    say("total", found(space().totalLossQ()).value(), "");
    open("part-open");
    say("part", highest("closed") < 0.8 * highest("free") ? "leak" : "vent");
  }

  private void circle() throws Exception {
    Map<String, Outcome<Estimate>> figures = driver(OptionalDouble.empty());
    double fs = value(figures, "fs");
    double q = value(figures, "Qms");
    say("diameter", value(figures, "Re") * q / value(figures, "Qes"), "ohm");
    say("fs", fs, "Hz");
    double middle = Math.sqrt(1 + 1 / (4 * q * q));
    say("below", fs * (middle - 1 / (2 * q)), "Hz");
    say("above", fs * (middle + 1 / (2 * q)), "Hz");
    say("qms", q, "");
    open("lead");
  }

  private void voiceCoil() throws Exception {
    Map<String, Outcome<Estimate>> figures = driver(OptionalDouble.empty());
    say("re", value(figures, "Re"), "ohm");
    say("le", value(figures, "Le"), "mH");
    say("loss", value(figures, "Rl"), "ohm");
    say("added", direct("later") - direct("free"), "ohm");
    open("why");
  }

  private double direct(String stem) throws Exception {
    ImpedancePoint first = curve(stem).points().get(0);
    if (first.frequencyHz() != 0) {
      throw new AssertionError(stem + " begins at " + first.frequencyHz() + " Hz, not at DC");
    }
    return first.resistanceOhm();
  }

  private void polarity() throws Exception {
    int peaks = peaks("shared").size();
    say("peaks", peaks, "");
    say("re", direct("shared"), "ohm");
    say("shared", peaks == 1 ? "against" : "together");
    open("which");
    open("separate");
    open("absolute");
  }
}
