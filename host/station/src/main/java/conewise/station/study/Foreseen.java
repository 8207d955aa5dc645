package conewise.station.study;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.BoxPrediction;
import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/**
 * What the prediction says, from the plan alone and before any box is built, that the terminals
 * show. The judge is held to it: where the prediction says that a fault surely shows, to leave the
 * box undecided is a failure.
 */
final class Foreseen {
  private static final int DRAWN_BOXES = 12;
  private static final long SEED = 1;
  private static final String DRIVER_REVERSED = FaultKind.DRIVER_REVERSED.id() + ":";

  private final Rates rates;
  private final Map<String, Map<String, Telling.Kind>> byPlan = new ConcurrentHashMap<>();

  Foreseen(Rates rates) {
    this.rates = rates;
  }

  /** True where the box can be decided: by a fault that surely shows, or by there being none. */
  boolean decidable(StudyPlan plan, List<Fault> truth) {
    Map<String, Telling.Kind> told =
        byPlan.computeIfAbsent(plan.name(), name -> tellings(plan.given()));
    return truth.isEmpty()
        ? told.entrySet().stream().noneMatch(Foreseen::hidesPolarity)
        : truth.stream().map(fault -> told.get(fault.id())).anyMatch(Foreseen::shows);
  }

  private static boolean shows(Telling.Kind kind) {
    return kind == Telling.Kind.SURELY || kind == Telling.Kind.OPEN;
  }

  /** A driver of several that may be reversed unseen: a good box then needs a pop test to pass. */
  private static boolean hidesPolarity(Map.Entry<String, Telling.Kind> entry) {
    return entry.getKey().startsWith(DRIVER_REVERSED) && entry.getValue() == Telling.Kind.NEVER;
  }

  private Map<String, Telling.Kind> tellings(PlannedBox plan) {
    BoxPrediction prediction = BoxPrediction.of(plan, rates, DRAWN_BOXES, SEED, done -> {});
    return prediction.prospects().stream()
        .flatMap(prospect -> prospect.faults().stream().map(fault -> Map.entry(fault, prospect)))
        .collect(
            Collectors.toMap(
                each -> each.getKey().id(), each -> kind(each.getValue()), (a, b) -> a));
  }

  private static Telling.Kind kind(Prospect prospect) {
    return prospect.telling().kind();
  }
}
