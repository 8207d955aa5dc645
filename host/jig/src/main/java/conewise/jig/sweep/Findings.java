package conewise.jig.sweep;

import conewise.analysis.bench.BenchCheck;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.client.LinkHealth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Turns what was read into a result: corrects the curve and gathers what the bench has to say. */
final class Findings {

  private final SweepSettings settings;
  private final JigClient client;
  private final RecordTaker taker;
  private final long begunNanos;
  private final List<BenchFinding> findings = new ArrayList<>();
  private final BenchCheck bench = BenchCheck.standard();

  Findings(SweepSettings settings, JigClient client, RecordTaker taker, long begunNanos) {
    this.settings = settings;
    this.client = client;
    this.taker = taker;
    this.begunNanos = begunNanos;
  }

  void add(BenchFinding finding) {
    findings.add(finding);
  }

  /** The correction in force: the calibration, or the nominal scales with their tolerance. */
  static OnePortCorrection correction(SweepSettings settings) {
    double relative = settings.scaleUncertainty();
    return settings
        .calibration()
        .map(Calibration::correction)
        .orElseGet(() -> OnePortCorrection.nominal(0, 1, relative));
  }

  /** Nothing was swept, since the look at the bench forbade it. */
  SweepResult notSwept(SweepKind kind, SelfCheckReport selfCheck) {
    String first = selfCheck.findings().get(0).sentence();
    return result(
        kind, Outcome.none(first), List.of(), List.of(), selfCheck.level(), Optional.of(selfCheck));
  }

  SweepResult quick(
      double[] frequenciesHz,
      int level,
      Optional<SelfCheckReport> selfCheck,
      double unlike,
      Capture capture,
      Outcome<ImpedanceEstimate> estimate) {
    if (estimate instanceof Outcome.Found<ImpedanceEstimate> found) {
      findings.addAll(bench.driven(capture, found.value()));
      leftOut(found.value());
      hit(unlike);
    } else {
      String because = ((Outcome.NoResult<ImpedanceEstimate>) estimate).because();
      findings.addAll(bench.clipping(capture));
      bench.noCurve(capture, because).ifPresent(findings::add);
    }
    return result(
        SweepKind.QUICK,
        estimate.map(ImpedanceEstimate::curve),
        List.of(capture),
        Arrays.stream(frequenciesHz).boxed().toList(),
        level,
        selfCheck);
  }

  private void leftOut(ImpedanceEstimate estimate) {
    if (!estimate.leftOut().isEmpty()) {
      ImpedanceEstimate.LeftOut first = estimate.leftOut().get(0);
      coverage(estimate.leftOut().size(), first.frequencyHz(), first.because());
    }
  }

  private void coverage(int count, double firstHz, String because) {
    add(
        new BenchFinding(
            Kind.COVERAGE,
            false,
            String.format(
                Locale.ROOT,
                "Nothing can be said at %d frequencies; the first is %.1f Hz: %s.",
                count,
                firstHz,
                because),
            "Sweep again if they matter."));
  }

  private void hit(double unlike) {
    boolean named = findings.stream().anyMatch(f -> f.kind() == Kind.LOOSE_CLIP);
    if (!named && unlike > TwoPeriods.MOST_UNLIKE) {
      add(
          new BenchFinding(
              Kind.LOOSE_CLIP,
              true,
              String.format(
                  Locale.ROOT,
                  "Two periods of the same wave differ by %.1f %% of it, in the last of %d"
                      + " records; at most %.1f %% is steady.",
                  100 * unlike,
                  QuickSweep.ATTEMPTS,
                  100 * TwoPeriods.MOST_UNLIKE),
              "Press both clips home, keep the box still and the room quiet, and sweep again."));
    }
  }

  /** What one held tone shows of the bench; of each kind of trouble the first is kept. */
  void tone(Capture capture, ImpedanceEstimate estimate) {
    for (BenchFinding finding : bench.driven(capture, estimate)) {
      boolean ofWholeCurve =
          finding.kind() == Kind.OPEN_TERMINALS || finding.kind() == Kind.SHORTED_TERMINALS;
      if (!ofWholeCurve && findings.stream().noneMatch(f -> f.kind() == finding.kind())) {
        add(finding);
      }
    }
  }

  /** What all held tones together show. */
  void tones(List<ToneReading> readings, Outcome<ImpedanceCurve> read) {
    if (read instanceof Outcome.Found<ImpedanceCurve> found) {
      bench.curve(found.value()).stream()
          .filter(finding -> findings.stream().noneMatch(f -> f.kind() == finding.kind()))
          .forEach(findings::add);
    }
    List<ToneReading> without =
        readings.stream()
            .filter(reading -> reading.read() instanceof Outcome.NoResult<ImpedancePoint>)
            .toList();
    if (!without.isEmpty()) {
      Outcome.NoResult<ImpedancePoint> first =
          (Outcome.NoResult<ImpedancePoint>) without.get(0).read();
      coverage(without.size(), without.get(0).frequencyHz(), first.because());
    }
  }

  SweepResult result(
      SweepKind kind,
      Outcome<ImpedanceCurve> read,
      List<Capture> captures,
      List<Double> frequenciesHz,
      int level,
      Optional<SelfCheckReport> selfCheck) {
    selfCheck.ifPresent(report -> findings.addAll(report.findings()));
    calibration();
    link();
    findings.sort(Comparator.comparing(finding -> !finding.spoils()));
    return new SweepResult(
        kind,
        new Measurement(corrected(settings, withDirectCurrent(read, selfCheck)), findings),
        read,
        captures,
        frequenciesHz,
        level,
        selfCheck,
        settings.calibration(),
        client.identity(),
        client.health(),
        (client.nanoTime() - begunNanos) * 1e-9);
  }

  /** The curve with the DC resistance of the look at the bench as its point at 0 Hz. */
  private static Outcome<ImpedanceCurve> withDirectCurrent(
      Outcome<ImpedanceCurve> read, Optional<SelfCheckReport> selfCheck) {
    if (read instanceof Outcome.Found<ImpedanceCurve> found
        && selfCheck.map(SelfCheckReport::dcResistance).orElse(Outcome.none("not looked at"))
            instanceof Outcome.Found<ImpedancePoint> direct) {
      List<ImpedancePoint> points = new ArrayList<>(List.of(direct.value()));
      points.addAll(found.value().points());
      return Outcome.found(new ImpedanceCurve(points, found.value().scaleUncertainty()));
    }
    return read;
  }

  /** What was read as it is shown: corrected, with what the correction leaves open. */
  static Outcome<ImpedanceCurve> corrected(SweepSettings settings, Outcome<ImpedanceCurve> read) {
    if (read instanceof Outcome.Found<ImpedanceCurve> found) {
      Outcome<ImpedanceCurve> corrected = correction(settings).apply(found.value());
      return settings
          .calibration()
          .map(Calibration::correction)
          .map(by -> corrected.map(curve -> BentScale.into(curve, by.standardOhm())))
          .orElse(corrected);
    }
    return read;
  }

  private void calibration() {
    Optional<String> stored = client.identity().jig().calibration();
    if (settings.calibration().isEmpty()) {
      add(
          new BenchFinding(
              Kind.CALIBRATION,
              false,
              String.format(
                  Locale.ROOT,
                  "No calibration was used: the scale of impedance has a standard uncertainty of"
                      + " %.1f %%.",
                  100 * settings.scaleUncertainty()),
              "Calibrate with open and shorted terminals and a known resistor."));
    } else if (stored.isPresent() && !stored.get().equals(settings.calibration().get().id())) {
      add(
          new BenchFinding(
              Kind.CALIBRATION,
              true,
              "The jig was last calibrated as "
                  + stored.get()
                  + ", but calibration "
                  + settings.calibration().get().id()
                  + " was used.",
              "Use the jig's own calibration, or calibrate again."));
    }
  }

  private void link() {
    LinkHealth health = client.health();
    if (taker.repeats() > 0) {
      add(
          new BenchFinding(
              Kind.LINK,
              false,
              taker.repeats()
                  + " records had to be taken again; "
                  + health.damagedLines()
                  + " lines came damaged.",
              "If it happens often, try a shorter or better USB cable."));
    }
  }
}
