package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.fit.Plausibility;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.fit.SharedErrors;
import conewise.analysis.fit.Sweep;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The curve that a fault would show, to be laid over a measured one: of the planned box with that
 * fault, its parts moved within the plan's tolerances to where they come nearest to what was
 * measured.
 *
 * @param faults what is taken to be wrong, at least one
 * @param curve from {@link BoxPrediction#LOWEST_HZ} to {@link BoxPrediction#HIGHEST_HZ}
 */
public record Explanation(List<Fault> faults, ImpedanceCurve curve) {
  /** Sweeps have more points than a fit of one fault needs. */
  private static final int FEW_POINTS = 50;

  /** As in a diagnosis: at first only large differences count, then each percent. */
  private static final double LOOSE = 0.1;

  private static final int LOOSE_STEPS = 15;
  private static final int STEPS = 40;

  /** Copies the faults. */
  public Explanation {
    faults = List.copyOf(faults);
  }

  /**
   * Reads which faults a sentence of a verdict speaks of.
   *
   * @param sentence what is wrong, as {@link conewise.analysis.diagnosis.Alternative#sentence} has
   *     it: one fault's, or two faults' joined by "and"
   * @return none where no usual fault of the plan's box is told by these words
   */
  public static Optional<List<Fault>> faults(PlannedBox plan, String sentence) {
    List<Fault> all = Diagnosis.usualFaults(plan, Rates.USUAL);
    for (Fault first : all) {
      if (first.sentence().equals(sentence)) {
        return Optional.of(List.of(first));
      }
    }
    for (Fault first : all) {
      if (sentence.startsWith(first.sentence() + ", and ")) {
        String rest = sentence.substring(first.sentence().length() + ", and ".length());
        Optional<Fault> second = all.stream().filter(f -> f.sentence().equals(rest)).findFirst();
        if (second.isPresent()) {
          return Optional.of(List.of(first, second.get()));
        }
      }
    }
    return Optional.empty();
  }

  /**
   * Lays the curve of faults to a measured one. Takes some tenths of a second.
   *
   * @param faults at least one
   * @param measured the sweep of the box as it came
   * @return none where no current passes, another box is suspected, or the fit leads nowhere
   */
  public static Outcome<Explanation> of(
      PlannedBox plan, List<Fault> faults, ImpedanceCurve measured) {
    if (faults.stream().anyMatch(fault -> fault.kind() == FaultKind.OTHER_BOX)) {
      return Outcome.none("another box shows what it shows: no curve of it can be foretold");
    }
    Candidate faulty = new Candidate(plan.model(), plan.unknowns());
    for (Fault fault : faults) {
      faulty = fault.change().apply(faulty);
    }
    if (!faulty.model().conducts()) {
      return Outcome.none("no current passes between the terminals");
    }
    Candidate box = faulty;
    return nearest(box, thinned(measured)).map(fit -> new Explanation(faults, curve(box, fit)));
  }

  /** With the factor that a jig's own scale puts on all that it measures. */
  private static ImpedanceCurve curve(Candidate box, Plausibility nearest) {
    double scale = nearest.fit().scale();
    ImpedanceCurve own =
        PredictedCurve.of(
            box.model(), box.unknowns(), nearest.coordinates(), ExpectedBand.frequenciesHz());
    return new ImpedanceCurve(
        own.points().stream()
            .map(
                point ->
                    new ImpedancePoint(
                        point.frequencyHz(),
                        scale * point.resistanceOhm(),
                        scale * point.reactanceOhm(),
                        Optional.empty()))
            .toList());
  }

  private static Outcome<Plausibility> nearest(Candidate box, ImpedanceCurve measured) {
    List<Sweep> sweeps = List.of(new Sweep(box.model(), measured));
    SharedErrors loose = SharedErrors.plain(sweeps, LOOSE);
    Outcome<Plausibility> about =
        Plausibility.of(sweeps, box.unknowns(), loose, List.of(Map.of()), LOOSE_STEPS);
    return about instanceof Found<Plausibility> found
        ? Plausibility.of(
            sweeps,
            box.unknowns(),
            SharedErrors.plain(sweeps),
            List.of(found.value().coordinates()),
            STEPS)
        : about;
  }

  private static ImpedanceCurve thinned(ImpedanceCurve measured) {
    List<ImpedancePoint> points = measured.points();
    if (points.size() <= FEW_POINTS) {
      return measured;
    }
    List<ImpedancePoint> few = new ArrayList<>();
    for (int i = 0; i < FEW_POINTS; i++) {
      few.add(points.get(Math.round(i * (points.size() - 1f) / (FEW_POINTS - 1))));
    }
    return new ImpedanceCurve(few, measured.scaleUncertainty());
  }
}
