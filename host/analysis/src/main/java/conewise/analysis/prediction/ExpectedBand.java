package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.fit.Unknown;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.random.SobolSequenceGenerator;
import org.apache.commons.math3.special.Erf;

/**
 * Where the curve of a box built as planned is expected: at each frequency by itself, from the 2.5
 * to the 97.5 % point of boxes spread evenly over all that the plan's tolerances allow (points of
 * I. M. Sobol', USSR Comput. Math. Math. Phys. 7(4), 1967, so that few boxes do). A single box lies
 * outside somewhere more often than one time in twenty, since there are many frequencies; the band
 * is for the eye, and no check rests on it. It holds neither noise nor a jig's own error.
 *
 * @param levels at rising frequencies, {@link BoxPrediction#LOWEST_HZ} to {@link
 *     BoxPrediction#HIGHEST_HZ}
 */
public record ExpectedBand(List<Level> levels) {
  private static final int POINTS = 160;
  private static final int BOXES = 512;
  private static final double TAIL = 0.025;

  /** What so few boxes leave ragged is smoothed, over about a tenth of an octave. */
  private static final int SMOOTHINGS = 3;

  /**
   * The band at one frequency.
   *
   * @param frequencyHz where
   * @param modulusOhm of |Z|
   * @param phaseDegrees of the phase
   */
  public record Level(double frequencyHz, Interval modulusOhm, Interval phaseDegrees) {}

  /** Copies the levels. */
  public ExpectedBand {
    levels = List.copyOf(levels);
  }

  /** Computes the band of a plan. Takes some tenths of a second. */
  public static ExpectedBand of(PlannedBox plan) {
    Candidate planned = new Candidate(plan.model(), plan.unknowns());
    double[] hz = frequenciesHz();
    List<List<ImpedancePoint>> boxes = new ArrayList<>();
    SobolSequenceGenerator even = new SobolSequenceGenerator(planned.unknowns().size());
    even.skipTo(1); // The one before lies at the end of every range.
    for (int i = 0; i < BOXES; i++) {
      boxes.add(
          PredictedCurve.of(
                  planned.model(),
                  planned.unknowns(),
                  coordinates(planned.unknowns(), even.nextVector()),
                  hz)
              .points());
    }
    Interval[] modulus = middles(boxes, ImpedancePoint::modulusOhm);
    Interval[] phase = middles(boxes, ImpedancePoint::phaseDegrees);
    List<Level> levels = new ArrayList<>();
    for (int f = 0; f < POINTS; f++) {
      levels.add(new Level(hz[f], modulus[f], phase[f]));
    }
    return new ExpectedBand(levels);
  }

  private static Interval[] middles(
      List<List<ImpedancePoint>> boxes, ToDoubleFunction<ImpedancePoint> value) {
    Interval[] middles = new Interval[POINTS];
    for (int f = 0; f < POINTS; f++) {
      middles[f] = middle(boxes, f, value);
    }
    for (int pass = 0; pass < SMOOTHINGS; pass++) {
      middles = smoothed(middles);
    }
    return middles;
  }

  /** Each with a quarter of either neighbour; the ends stay. */
  private static Interval[] smoothed(Interval[] rough) {
    Interval[] smooth = rough.clone();
    for (int f = 1; f < rough.length - 1; f++) {
      smooth[f] =
          new Interval(
              (rough[f - 1].low() + 2 * rough[f].low() + rough[f + 1].low()) / 4,
              (rough[f - 1].high() + 2 * rough[f].high() + rough[f + 1].high()) / 4);
    }
    return smooth;
  }

  /** Normal about each centre, as far as the limits let it. */
  private static Map<String, Double> coordinates(List<Unknown> unknowns, double[] even) {
    Map<String, Double> at = new HashMap<>();
    for (int k = 0; k < even.length; k++) {
      Unknown each = unknowns.get(k);
      double normal = Math.sqrt(2) * Erf.erfInv(2 * even[k] - 1);
      at.put(each.name(), DrawnBoxes.within(each, each.centre() + each.spread() * normal));
    }
    return at;
  }

  private static Interval middle(
      List<List<ImpedancePoint>> boxes, int at, ToDoubleFunction<ImpedancePoint> value) {
    double[] sorted = boxes.stream().mapToDouble(box -> value.applyAsDouble(box.get(at))).toArray();
    Arrays.sort(sorted);
    return new Interval(quantile(sorted, TAIL), quantile(sorted, 1 - TAIL));
  }

  /** Linear between the ranks. */
  private static double quantile(double[] sorted, double share) {
    double rank = share * (sorted.length - 1);
    int below = (int) rank;
    double part = rank - below;
    return part == 0 ? sorted[below] : (1 - part) * sorted[below] + part * sorted[below + 1];
  }

  static double[] frequenciesHz() {
    double[] hz = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      hz[i] =
          BoxPrediction.LOWEST_HZ
              * Math.pow(BoxPrediction.HIGHEST_HZ / BoxPrediction.LOWEST_HZ, i / (POINTS - 1.0));
    }
    return hz;
  }
}
