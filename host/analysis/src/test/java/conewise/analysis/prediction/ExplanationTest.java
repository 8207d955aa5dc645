package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Alternative;
import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The curve of a fault, laid over a measured one. */
class ExplanationTest {
  private static final PlannedBox PLAN =
      Plans.shared(Plans.kind(3.6, 3.6), 2, Optional.of(Plans.tuned()), Plans.twoOfTwo());
  private static final List<Fault> FAULTS = Diagnosis.usualFaults(PLAN, Rates.USUAL);

  private static Fault fault(String id) {
    return FAULTS.stream().filter(each -> each.id().equals(id)).findFirst().orElseThrow();
  }

  /** A box with a fault and parts off the plan, and its fault's curve: they agree to 2 %. */
  @Test
  void theCurveOfTheFaultThatABoxHasLiesOnWhatWasMeasured() {
    long seed = new Random().nextLong();
    Candidate box =
        fault("driver-reversed:b").change().apply(new Candidate(PLAN.model(), PLAN.unknowns()));
    Map<String, Double> at = DrawnBoxes.coordinates(box, new Random(seed));
    double[] hz = ExpectedBand.frequenciesHz();
    ImpedanceCurve measured = PredictedCurve.of(box.model(), box.unknowns(), at, hz);
    Outcome<Explanation> outcome =
        Explanation.of(PLAN, List.of(fault("driver-reversed:b")), measured);
    List<ImpedancePoint> curve = ((Found<Explanation>) outcome).value().curve().points();
    for (int f = 0; f < hz.length; f++) {
      double ohm = measured.points().get(f).modulusOhm();
      assertEquals(ohm, curve.get(f).modulusOhm(), 0.02 * ohm, hz[f] + " Hz, seed " + seed);
    }
  }

  @Test
  void whatAVerdictSaysIsReadBackOfOneFaultAndOfTwo() {
    for (Fault one : FAULTS) {
      List<Fault> read = read(one.sentence());
      // Another box is one thing to say, however it is made.
      assertTrue(
          read.equals(List.of(one)) || read.get(0).kind() == FaultKind.OTHER_BOX, one.sentence());
      assertEquals(one.kind(), read.get(0).kind());
    }
    Fault first = fault("driver-reversed:a");
    for (Fault second : FAULTS) {
      if (second.kind() == FaultKind.OTHER_BOX) {
        continue;
      }
      String both = new Alternative(List.of(first, second), 1).sentence();
      assertEquals(List.of(first, second), read(both), both);
    }
    assertTrue(Explanation.faults(PLAN, "nothing is wrong").isEmpty());
  }

  /** Faults hold functions, which are never equal: those of the test's own list, by id. */
  private static List<Fault> read(String sentence) {
    return Explanation.faults(PLAN, sentence).orElseThrow().stream()
        .map(each -> fault(each.id()))
        .toList();
  }

  @Test
  void ofAnotherBoxNoCurveIsForetold() {
    Fault other =
        FAULTS.stream().filter(f -> f.kind() == FaultKind.OTHER_BOX).findFirst().orElseThrow();
    ImpedanceCurve any =
        PredictedCurve.of(PLAN.model(), PLAN.unknowns(), Map.of(), ExpectedBand.frequenciesHz());
    assertInstanceOf(NoResult.class, Explanation.of(PLAN, List.of(other), any));
  }
}
