package conewise.analysis.judgement;

import static conewise.analysis.judgement.Checks.text;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What makes a curve unfit to be judged, whatever the box: no box gives it, or it shows too little.
 */
final class BenchDoubt {
  private static final double SHORT_PART = 0.05;
  private static final double OPEN_TIMES = 20;

  /** A passive box has no negative resistance; this part of |Z| is left to noise. */
  private static final double NEGATIVE_PART = 0.05;

  private static final int LEAST_POINTS = 12;
  private static final double MOST_JITTER = 0.05;

  /** A third of an octave: a resonance of quality 4 is about as wide. */
  private static final double WIDEST_GAP = 1.26;

  /** The first and last point may miss the wanted range by this factor. */
  private static final double START_SLACK = 1.1;

  private static final double LOW_PART = 0.45;
  private static final double HIGH_TIMES = 4;
  private static final double USUAL_LOW_HZ = 15;
  private static final double USUAL_HIGH_HZ = 150;

  private BenchDoubt() {}

  /**
   * What forbids to read the curve at all.
   *
   * @param plannedOhm the resistance to direct current as planned
   * @param referenceHz about where the box resonates, if that is known
   */
  static Optional<BenchFinding> of(
      double plannedOhm, OptionalDouble referenceHz, ImpedanceCurve curve) {
    List<ImpedancePoint> points = curve.points().stream().filter(p -> p.frequencyHz() > 0).toList();
    return coverage(referenceHz, points)
        .or(() -> level(plannedOhm, points))
        .or(() -> negative(points));
  }

  /** What forbids to trust what was read. */
  static Optional<BenchFinding> noise(CurveFeatures features) {
    double jitter = features.extrema().jitter();
    return jitter <= MOST_JITTER
        ? Optional.empty()
        : Optional.of(
            new BenchFinding(
                Kind.TOO_NOISY,
                true,
                text(
                    "|Z| jitters by %.1f %% from point to point; at most %.0f %% may be judged.",
                    100 * jitter, 100 * MOST_JITTER),
                "Clean the clips, keep the bench quiet and sweep again."));
  }

  private static Optional<BenchFinding> level(double plannedOhm, List<ImpedancePoint> points) {
    double[] rising = points.stream().mapToDouble(ImpedancePoint::modulusOhm).sorted().toArray();
    double median = rising[rising.length / 2];
    if (median < SHORT_PART * plannedOhm) {
      return Optional.of(
          new BenchFinding(
              Kind.SHORTED_TERMINALS,
              true,
              text(
                  "|Z| is near %s ohm, and the plan's resistance is %s ohm: a short, or an"
                      + " amplifier's output in parallel.",
                  Checks.number(median), Checks.number(plannedOhm)),
              "Disconnect every amplifier, part the clips and sweep again; if it stays, the box"
                  + " itself is shorted."));
    }
    if (rising[0] > OPEN_TIMES * plannedOhm) {
      return Optional.of(
          new BenchFinding(
              Kind.OPEN_TERMINALS,
              true,
              text(
                  "|Z| is nowhere below %s ohm, and the plan's resistance is %s ohm: nothing is"
                      + " connected.",
                  Checks.number(rising[0]), Checks.number(plannedOhm)),
              "Put the clips on again and sweep; if it stays, the box itself is open."));
    }
    return Optional.empty();
  }

  private static Optional<BenchFinding> negative(List<ImpedancePoint> points) {
    List<ImpedancePoint> negative =
        points.stream()
            .filter(
                p ->
                    p.resistanceOhm()
                        < -Math.max(
                            NEGATIVE_PART * p.modulusOhm(),
                            p.uncertainty()
                                .map(u -> 4 * Math.sqrt(u.varianceResistance()))
                                .orElse(0.0)))
            .toList();
    return negative.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new BenchFinding(
                Kind.CALIBRATION,
                true,
                text(
                    "The resistance is negative at %d of %d points, first %s ohm at %s Hz; no box"
                        + " does that.",
                    negative.size(),
                    points.size(),
                    Checks.number(negative.get(0).resistanceOhm()),
                    Checks.number(negative.get(0).frequencyHz())),
                "Check that voltage and current are not exchanged or reversed, and calibrate"
                    + " again."));
  }

  private static Optional<BenchFinding> coverage(
      OptionalDouble reference, List<ImpedancePoint> points) {
    if (points.size() < LEAST_POINTS) {
      return Optional.of(
          missing(
              text(
                  "The curve has %d points above 0 Hz; at least %d are needed.",
                  points.size(), LEAST_POINTS)));
    }
    double low =
        reference.isPresent() ? Math.max(10, LOW_PART * reference.getAsDouble()) : USUAL_LOW_HZ;
    double high =
        reference.isPresent()
            ? Math.max(100, Math.min(400, HIGH_TIMES * reference.getAsDouble()))
            : USUAL_HIGH_HZ;
    return gaps(points, low, high);
  }

  private static Optional<BenchFinding> gaps(List<ImpedancePoint> points, double low, double high) {
    List<String> gaps = new ArrayList<>();
    // The last point at or below the low end covers it as well as one a little above would.
    double before =
        points.stream()
            .mapToDouble(ImpedancePoint::frequencyHz)
            .filter(hz -> hz <= low)
            .reduce(low * START_SLACK / WIDEST_GAP, Math::max);
    for (ImpedancePoint point : points) {
      double here = point.frequencyHz();
      if (before < high && here > before * WIDEST_GAP) {
        double from = Math.max(before, low);
        gaps.add(text("%s to %s Hz", Checks.number(from), Checks.number(Math.min(here, high))));
      }
      before = Math.max(before, here);
    }
    if (before * START_SLACK < high) {
      gaps.add(text("%s to %s Hz", Checks.number(before), Checks.number(high)));
    }
    return gaps.isEmpty()
        ? Optional.empty()
        : Optional.of(
            missing(
                text(
                    "The curve has no points from %s; this box needs %s to %s Hz without a gap of"
                        + " more than a third of an octave.",
                    String.join(", ", gaps.subList(0, Math.min(3, gaps.size()))),
                    Checks.number(low),
                    Checks.number(high))));
  }

  private static BenchFinding missing(String sentence) {
    return new BenchFinding(
        Kind.COVERAGE, true, sentence, "Sweep again over the whole range with more points.");
  }

  /** The sentence with a small first letter, unless it starts with a symbol or an abbreviation. */
  static String lower(String sentence) {
    boolean word = sentence.length() > 1 && Character.isLowerCase(sentence.charAt(1));
    return word
        ? sentence.substring(0, 1).toLowerCase(Locale.ROOT) + sentence.substring(1)
        : sentence;
  }
}
