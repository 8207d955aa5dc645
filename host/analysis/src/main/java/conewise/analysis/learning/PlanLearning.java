package conewise.analysis.learning;

import conewise.analysis.learning.LearnedFigure.Reading;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.BoxMeasurement;
import conewise.analysis.parameter.FittedBox;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ObjIntConsumer;

/**
 * Learns a plan from good boxes of one design. Each is judged and fitted under a base plan; values
 * and tolerances come from what they have in common and how they spread, limits from two-sided
 * normal tolerance intervals (99 % of boxes, 95 % confidence).
 */
public final class PlanLearning {
  /** From fewer boxes a spread is hardly known. */
  public static final int LEAST_BOXES = 5;

  private final PlannedBox base;
  private final Screening screening;
  private final Map<String, Map<FigureKind, Reading>> readings = new LinkedHashMap<>();
  private final Set<FigureKind> untold = new LinkedHashSet<>();
  private final List<LeftOut> leftOut = new ArrayList<>();
  private final List<String> refused = new ArrayList<>();

  private PlanLearning(PlannedBox base) {
    this.base = base;
    screening = new Screening(base);
  }

  /**
   * Learns. Takes a few seconds for each box.
   *
   * @param base what the boxes were built by, as far as it is known
   * @param boxes at least {@link #LEAST_BOXES}, of different names
   * @param begun hears the name of each box and how many were done before it
   * @return none where a curve cannot be used, or too few boxes are left, with every reason
   */
  public static Outcome<Lesson> of(
      PlannedBox base, List<GoodBox> boxes, ObjIntConsumer<String> begun) {
    return new PlanLearning(base).learn(boxes, begun);
  }

  private Outcome<Lesson> learn(List<GoodBox> boxes, ObjIntConsumer<String> begun) {
    if (boxes.size() < LEAST_BOXES) {
      return Outcome.none(tooFew(boxes.size() + " were given"));
    }
    for (int i = 0; i < boxes.size(); i++) {
      begun.accept(boxes.get(i).name(), i);
      take(boxes.get(i));
    }
    if (!refused.isEmpty()) {
      return Outcome.none(String.join(" ", refused));
    }
    leaveOutUnlike();
    if (readings.size() < LEAST_BOXES) {
      StringBuilder because = new StringBuilder(tooFew(readings.size() + " are left"));
      leftOut.forEach(
          each -> because.append("; ").append(each.name()).append(": ").append(each.because()));
      return Outcome.none(because.toString());
    }
    return Outcome.found(lesson());
  }

  private static String tooFew(String how) {
    return "a plan is learned from at least " + LEAST_BOXES + " boxes, and " + how;
  }

  private void take(GoodBox box) {
    Optional<Screening.Doubt> doubt = screening.doubt(box);
    if (doubt.isPresent()) {
      if (doubt.get().unusable()) {
        refuse(box, doubt.get().because());
      } else {
        leftOut.add(new LeftOut(box.name(), doubt.get().because()));
      }
      return;
    }
    Outcome<FittedBox> outcome = BoxMeasurement.of(base, box.curve()).fit();
    if (outcome instanceof NoResult<FittedBox> none) {
      refuse(box, none.because());
      return;
    }
    FittedBox fitted = ((Found<FittedBox>) outcome).value();
    Screening.badFit(fitted.fit())
        .ifPresentOrElse(
            because -> refuse(box, because),
            () -> {
              BoxReading reading = BoxReading.of(base, fitted);
              readings.put(box.name(), reading.told());
              untold.addAll(reading.untold());
            });
  }

  private void refuse(GoodBox box, String because) {
    String reason = because.endsWith(".") ? because.substring(0, because.length() - 1) : because;
    refused.add(
        box.name() + " cannot be learned from: " + reason + "; sweep it again or leave it out.");
  }

  /** Again until none is unlike those that are left: a far one hides one less far. */
  private void leaveOutUnlike() {
    boolean found = true;
    while (found && readings.size() >= LEAST_BOXES) {
      found = false;
      List<Map<FigureKind, Reading>> all = List.copyOf(readings.values());
      for (String name : List.copyOf(readings.keySet())) {
        Optional<String> unlike = Screening.unlike(readings.get(name), all);
        if (unlike.isPresent()) {
          leftOut.add(new LeftOut(name, unlike.get()));
          readings.remove(name);
          found = true;
        }
      }
    }
  }

  private Lesson lesson() {
    Map<FigureKind, List<Reading>> gathered = new LinkedHashMap<>();
    for (Map<FigureKind, Reading> box : readings.values()) {
      box.forEach(
          (kind, reading) -> gathered.computeIfAbsent(kind, key -> new ArrayList<>()).add(reading));
    }
    Map<FigureKind, LearnedFigure> learned = new LinkedHashMap<>();
    gathered.forEach(
        (kind, those) -> {
          if (those.size() >= LEAST_BOXES) {
            learned.put(kind, LearnedFigure.of(kind, those));
          }
        });
    List<String> notTold =
        untold.stream().filter(kind -> !learned.containsKey(kind)).map(FigureKind::words).toList();
    return new Lesson(
        new LearnedPlan(base, learned).plan(readings.size()),
        List.copyOf(readings.keySet()),
        List.copyOf(learned.values()),
        notTold,
        leftOut);
  }
}
