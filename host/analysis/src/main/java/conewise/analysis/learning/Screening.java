package conewise.analysis.learning;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.learning.LearnedFigure.Reading;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Which boxes are not to be learned from. */
final class Screening {
  /** A fault that is likelier than not. */
  private static final double LEAST_SOUND = 0.5;

  /**
   * How many times what real drivers are usually off their model at least a curve may be: of 700
   * drawn good boxes, whose coils are of another form than the model's, all but one needed 1.4
   * times and that one 3, curves bent by 15 % eighteen times and more.
   */
  private static final double MOST_OFF = 5;

  /**
   * Robust deviations from the median, of which a good box is at most so many off. By trial with
   * normal spreads, 5 to 40 boxes: a figure loses a good sample a box in at most 1 of 25.
   */
  private static final double MOST_ROBUST = 6;

  /** Makes the median of absolute deviations the standard deviation of a normal law. */
  private static final double NORMAL = 1.4826;

  /** By chance a few boxes may be nearly alike; their robust scale is at least so much. */
  private static final double LEAST_OF_USUAL = 0.25;

  private final PlannedBox plan;
  private final BoxJudge judge = new BoxJudge();

  Screening(PlannedBox base) {
    plan = withoutLimits(base);
  }

  /** What is wrong with a box by the base plan. */
  record Doubt(boolean unusable, String because) {}

  /** The same plan, asking nothing but that a box be built by it. */
  private static PlannedBox withoutLimits(PlannedBox base) {
    return new PlannedBox(
        base.name(),
        base.kinds(),
        base.drivers(),
        base.spaces(),
        base.vents(),
        base.radiators(),
        base.wiring(),
        base.leadOhm(),
        Demands.NONE);
  }

  /** The diagnosis' own word on a box; its limits are left aside, since they are to be learned. */
  Optional<Doubt> doubt(GoodBox box) {
    Verdict verdict = judge.judge(plan, Measurement.of(box.curve()));
    if (verdict.decision() == Decision.NOT_JUDGED) {
      return Optional.of(new Doubt(true, verdict.headline()));
    }
    Optional<Check> unexplained =
        verdict.checks().stream().filter(check -> check.id().equals("explained")).findFirst();
    if (unexplained.isPresent()) {
      return Optional.of(new Doubt(true, unexplained.get().reason()));
    }
    boolean wrong =
        verdict.checks().stream()
            .filter(check -> BoxJudge.FAULT_CHECKS.contains(check.id()))
            .anyMatch(Screening::likelyWrong);
    return wrong ? verdict.suspects().stream().findFirst().map(Screening::wrong) : Optional.empty();
  }

  private static Doubt wrong(Verdict.Suspect likeliest) {
    return new Doubt(
        false,
        String.format(
            Locale.ROOT,
            "by the base plan it is probably wrong (%s; probability %.2g)",
            String.join("; or ", likeliest.faults()),
            likeliest.probability()));
  }

  private static boolean likelyWrong(Check check) {
    return check.reading() instanceof Found<Check.Reading> found
        && found.value().value() < LEAST_SOUND;
  }

  /** Why a fit is too bad to learn from. */
  static Optional<String> badFit(BoxFit fit) {
    Discrepancy usual = Discrepancy.USUAL;
    Discrepancy off = fit.discrepancy();
    double times =
        Collections.max(
            List.of(
                Math.max(off.smooth(), off.scattered()) / usual.smooth(),
                off.suspension() / usual.suspension(),
                off.coil() / usual.coil()));
    return times <= MOST_OFF
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                "its curve is %.1f times as far off the base plan's model as real drivers usually"
                    + " are; at most %.0f times may be",
                times,
                MOST_OFF));
  }

  /**
   * How far a box is from the others in its most unusual figure, by the median and the median
   * absolute deviation (P. J. Rousseeuw and C. Croux, J. Am. Stat. Assoc. 88, 1993).
   */
  static Optional<String> unlike(Map<FigureKind, Reading> box, List<Map<FigureKind, Reading>> all) {
    String worst = null;
    double most = MOST_ROBUST;
    for (Map.Entry<FigureKind, Reading> each : box.entrySet()) {
      FigureKind kind = each.getKey();
      List<Reading> those =
          all.stream().filter(a -> a.containsKey(kind)).map(a -> a.get(kind)).toList();
      double[] logs = those.stream().mapToDouble(r -> Math.log(r.value())).toArray();
      double middle = median(logs);
      double away = Math.log(each.getValue().value()) - middle;
      double robust = Math.abs(away) / scale(kind, those, logs, middle);
      if (those.size() >= PlanLearning.LEAST_BOXES && robust > most) {
        most = robust;
        worst =
            String.format(
                Locale.ROOT,
                "its %s is %.1f %% %s the boxes' median, %.0f times their usual deviation",
                kind.words(),
                100 * Math.abs(Math.expm1(away)),
                away > 0 ? "above" : "below",
                robust);
      }
    }
    return Optional.ofNullable(worst);
  }

  private static double scale(FigureKind kind, List<Reading> those, double[] logs, double middle) {
    double[] away = Arrays.stream(logs).map(each -> Math.abs(each - middle)).toArray();
    double noise =
        Math.sqrt(
            those.stream()
                .mapToDouble(r -> Math.pow(r.relativeUncertainty(), 2))
                .average()
                .orElseThrow());
    return Math.max(Math.max(NORMAL * median(away), noise), LEAST_OF_USUAL * kind.usualSpread());
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
