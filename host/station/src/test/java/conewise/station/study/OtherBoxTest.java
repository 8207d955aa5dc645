package conewise.station.study;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A good box of one plan, judged by another's: a picked job that is not the one on the bench. */
class OtherBoxTest {
  @ParameterizedTest
  @CsvSource({"wren, heron", "wren, teal", "heron, wren", "plover, heron", "teal, wren"})
  void isNamedAsAnotherBoxAndNotAsAFault(String onTheBench, String picked) throws Exception {
    long seed = new Random().nextLong();
    Diagnosis diagnosis = judged(onTheBench, picked, seed);
    assertEquals(
        FaultKind.OTHER_BOX,
        diagnosis.findings().get(0).likeliest().faults().get(0).kind(),
        "seed " + seed);
  }

  @ParameterizedTest
  @CsvSource({"wren", "heron", "teal", "plover"})
  void isNotSuspectedOfABoxOfItsOwnPlan(String plan) throws Exception {
    long seed = new Random().nextLong();
    Diagnosis diagnosis = judged(plan, plan, seed);
    double other =
        diagnosis.probabilityOf(
            each -> each.faults().stream().anyMatch(f -> f.kind() == FaultKind.OTHER_BOX));
    assertEquals(0, other, 0.02, "seed " + seed);
  }

  private static Diagnosis judged(String onTheBench, String picked, long seed) throws Exception {
    return ((Found<Diagnosis>)
            Diagnosis.of(
                plan(picked),
                List.of(SweptState.asBuilt(DrawnSweep.good(plan(onTheBench), new Random(seed))))))
        .value();
  }

  private static PlannedBox plan(String name) throws Exception {
    return StudyPlan.all().stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow()
        .given();
  }
}
