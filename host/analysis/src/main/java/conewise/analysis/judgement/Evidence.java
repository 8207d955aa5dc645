package conewise.analysis.judgement;

import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.feature.Resonance;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.PlannedResistance;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** All that the checks look at: the plan, the curve and what was read off it. */
record Evidence(BoxPlan plan, ImpedanceCurve curve, CurveFeatures features) {

  /** How far a driver's resonance may wander from its sheet (common practice: 10 to 20 %). */
  static final double RESONANCE_DRIFT = 0.15;

  /**
   * A resonance beyond those that the kind of box has, with more than this share of the whole, is
   * more than unequal drivers make.
   */
  static final double EXTRA_SHARE = 0.03;

  /** A resonance of a lower quality does not ring. */
  private static final double RINGING = 0.8;

  /**
   * A smaller peak over DC resistance is a well-made box's only with very lossy drivers; a part
   * that works against the rest damps more than that. From the drawn boxes of the tests.
   */
  static final double LEAST_LIVELY_PEAK = 4.5;

  /**
   * One of three or four drivers reversed leaves a ninth or a quarter of the compliance ratio;
   * below this a box is taken for such a one rather than for a very large one.
   */
  static final double LEAST_COMPLIANCE = 0.5;

  int expectedPeaks() {
    return plan.kind() == Kind.VENTED ? 2 : 1;
  }

  double plannedOhm() {
    return PlannedResistance.ohm(plan);
  }

  boolean shared() {
    return plan.drivers().size() > 1 && !plan.separateSpaces();
  }

  boolean apart() {
    return plan.drivers().size() > 1 && plan.separateSpaces();
  }

  /** True for one driver of several coils. */
  boolean loneWithCoils() {
    return plan.drivers().size() == 1 && plan.drivers().get(0).coilOhm().size() > 1;
  }

  /** How many peaks |Z| has: read from the points, read from the fit, and what an end may hide. */
  Interval peakCount() {
    int local = features.extrema().peaks().size();
    int fitted = fittedPeaks();
    int hidden = features.extrema().fallsFromLowEnd() ? 1 : 0;
    return new Interval(Math.min(local, fitted), Math.max(local, fitted) + hidden);
  }

  int fittedPeaks() {
    return features.fittedPeaksOhm() instanceof Outcome.Found<List<Double>> found
        ? found.value().size()
        : features.extrema().peaks().size();
  }

  /** The range in which the drivers' own resonance may lie, when the plan knows it. */
  Optional<Interval> ownResonanceHz() {
    List<Double> known =
        plan.drivers().stream().flatMap(driver -> driver.resonanceHz().stream()).toList();
    if (known.size() < plan.drivers().size()) {
      return Optional.empty();
    }
    double low = known.stream().mapToDouble(Double::doubleValue).min().orElseThrow();
    double high = known.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    return Optional.of(new Interval(low * (1 - RESONANCE_DRIFT), high * (1 + RESONANCE_DRIFT)));
  }

  /**
   * What the two peaks and the tuning of a vented box imply, without losses (Thiele 1971; Small
   * 1973).
   *
   * @param ownHz the drivers' resonance, fL fH / fB
   * @param compliance driver's over box's, (fH^2 - fB^2)(fB^2 - fL^2) / (fH fL)^2
   */
  record Implied(double ownHz, double compliance) {
    static Implied of(double low, double high, double tuning) {
      double above = high * high - tuning * tuning;
      double below = tuning * tuning - low * low;
      return new Implied(low * high / tuning, above * below / Math.pow(high * low, 2));
    }
  }

  Optional<Implied> implied() {
    List<Resonance> strong =
        features.resonances().stream().filter(r -> r.strength() > EXTRA_SHARE).toList();
    return features.tuningHz() instanceof Outcome.Found<Estimate> tuning && strong.size() == 2
        ? Optional.of(
            Implied.of(
                strong.get(0).frequencyHz(), strong.get(1).frequencyHz(), tuning.value().value()))
        : Optional.empty();
  }

  /**
   * The largest share of a resonance that this kind of box does not have. One below the others that
   * does not ring is left out: that is a leak's.
   */
  double extraShare() {
    double lowest =
        features.resonances().stream()
            .filter(r -> r.quality() >= RINGING)
            .mapToDouble(Resonance::frequencyHz)
            .min()
            .orElse(0);
    List<Double> falling =
        features.resonances().stream()
            .filter(r -> r.quality() >= RINGING || r.frequencyHz() > lowest)
            .map(r -> Math.abs(r.strength()))
            .sorted(Comparator.reverseOrder())
            .toList();
    return falling.size() > expectedPeaks() ? falling.get(expectedPeaks()) : 0;
  }

  /** The smallest peak over the DC resistance, when both are known. */
  Optional<Double> smallestPeakRatio() {
    if (!(features.dcResistanceOhm() instanceof Outcome.Found<Estimate> dc)) {
      return Optional.empty();
    }
    return features.extrema().peaks().stream()
        .map(peak -> peak.modulusOhm().interval().low() / dc.value().value())
        .min(Comparator.naturalOrder());
  }

  /**
   * True where a part of the box could work against the rest and hide as mere damping: a coil of
   * one of several drivers, or one of three and more drivers.
   */
  boolean mayHideAsDamping() {
    return plan.drivers().size() > 2
        || (plan.drivers().size() > 1
            && plan.drivers().stream().anyMatch(driver -> driver.coilOhm().size() > 1));
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
