package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.fit.Plausibility;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.fit.SharedErrors;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.Unknown;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * Boxes with a fault, drawn from all that they may be, and how well a good box explains their
 * curves: the comparison that a diagnosis makes, between these two alone. Each box has its own
 * parts, its own size of the fault, and a quick sweep's noise.
 */
final class DrawnBoxes {
  private static final int POINTS = 40;
  private static final int STEPS = 40;

  /** A coordinate stays off its limits by this share of its span. */
  private static final double EDGE = 0.01;

  /** A fault is told from a good box where it is so many times as probable: 0.95 to 0.05. */
  private static final double ENOUGH = Math.log(19);

  /** What counts as far where a good box cannot be fitted at all. */
  private static final double NO_FIT_SIGMAS = 100;

  private final Candidate planned;
  private final int boxes;
  private final long seed;

  DrawnBoxes(Candidate planned, int boxes, long seed) {
    this.planned = planned;
    this.boxes = boxes;
    this.seed = seed;
  }

  /** How boxes with one of some faults, which come to one candidate, are told. */
  Telling telling(List<Fault> faults, Candidate faulty) {
    Random random = new Random(seed ^ (faults.get(0).id().hashCode() * 0x9E3779B97F4A7C15L));
    List<Double> sigmas = new ArrayList<>();
    for (int i = 0; i < boxes; i++) {
      sigmas.add(sigmas(faulty, random));
    }
    double rate = faults.stream().mapToDouble(fault -> fault.rate() / (1 - fault.rate())).sum();
    return Telling.of(sigmas, Math.sqrt(2 * (ENOUGH - Math.log(Math.min(1, rate)))));
  }

  /** The root of twice the logarithm of the ratio of evidences; 0 where a good box is likelier. */
  private double sigmas(Candidate faulty, Random random) {
    Map<String, Double> at = coordinates(faulty, random);
    ImpedanceCurve curve =
        QuickSweepNoise.on(
            PredictedCurve.of(faulty.model(), faulty.unknowns(), at, frequenciesHz()), random);
    List<Sweep> asFaulty = List.of(new Sweep(faulty.model(), curve));
    SharedErrors errors =
        SharedErrors.about(asFaulty, faulty.unknowns(), at, Discrepancy.OF_BUILT_BOXES);
    Outcome<Plausibility> bad =
        Plausibility.of(asFaulty, faulty.unknowns(), errors, List.of(at), STEPS);
    Outcome<Plausibility> good =
        Plausibility.of(
            List.of(new Sweep(planned.model(), curve)),
            planned.unknowns(),
            errors,
            List.of(Map.of(), at),
            STEPS);
    if (!(bad instanceof Found<Plausibility> fault)) {
      return 0;
    }
    if (!(good instanceof Found<Plausibility> fine)) {
      return NO_FIT_SIGMAS;
    }
    double off = fault.value().logEvidence() - fine.value().logEvidence();
    return Math.sqrt(2 * Math.max(0, off));
  }

  /** Where the parts of one box lie, drawn from all that they may. */
  static Map<String, Double> coordinates(Candidate candidate, Random random) {
    Map<String, Double> drawn = new HashMap<>();
    for (Unknown each : candidate.unknowns()) {
      drawn.put(each.name(), within(each, each.centre() + each.spread() * random.nextGaussian()));
    }
    return drawn;
  }

  /** A coordinate, held within its limits. */
  static double within(Unknown unknown, double coordinate) {
    double edge = EDGE * (unknown.high() - unknown.low());
    return Math.max(unknown.low() + edge, Math.min(unknown.high() - edge, coordinate));
  }

  /** 0 Hz, and a sweep's range evenly in the logarithm. */
  private static double[] frequenciesHz() {
    double[] hz = new double[POINTS + 1];
    for (int i = 0; i < POINTS; i++) {
      hz[i + 1] =
          BoxPrediction.LOWEST_HZ
              * Math.pow(BoxPrediction.HIGHEST_HZ / BoxPrediction.LOWEST_HZ, i / (POINTS - 1.0));
    }
    return hz;
  }
}
