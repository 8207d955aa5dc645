package conewise.station.judging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.Backdrop.Suspected;
import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import conewise.station.report.JobCardPage;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What a card's curve is held against. */
class BackdropsTest {
  private static final PlannedBox PLAN = SampleCards.plan();

  /** The curve of a box of the plan with a fault, as the model has it. */
  private static ImpedanceCurve curve(String fault) {
    Candidate box =
        Diagnosis.usualFaults(PLAN, Rates.USUAL).stream()
            .filter(each -> each.id().equals(fault))
            .findFirst()
            .orElseThrow()
            .change()
            .apply(new Candidate(PLAN.model(), PLAN.unknowns()));
    double[] hz = new double[60];
    for (int i = 0; i < hz.length; i++) {
      hz[i] = 10 * Math.pow(40, i / (hz.length - 1.0));
    }
    return PredictedCurve.of(box.model(), box.unknowns(), Map.of(), hz);
  }

  private static JobCard suspecting(double probability, String fault, String... sentences) {
    Verdict verdict =
        new Verdict(
            Decision.FAIL,
            "Wrong.",
            Optional.empty(),
            List.of(),
            List.of(new Verdict.Suspect(List.of(sentences), "it fits.", "look.", probability)),
            List.of(),
            List.of(),
            List.of());
    return new Backdrops()
        .behind(
            new JobCard(
                Optional.of("A-1"),
                OptionalInt.of(1),
                PLAN,
                Measurement.of(curve(fault)),
                verdict,
                List.of(),
                List.of()));
  }

  private static Set<String> coils(Suspected suspected) {
    return suspected.coils().stream()
        .map(coil -> coil.driver() + "." + coil.number())
        .collect(Collectors.toSet());
  }

  @Test
  void eitherOfTwoDriversReversedIsNamedDrawnAndMarkedInTheWiring() {
    JobCard card =
        suspecting(
            0.99,
            "driver-reversed:left",
            "driver left is wired backwards",
            "driver right is wired backwards");
    Suspected suspected = card.backdrop().suspected().orElseThrow();
    assertEquals("driver left or right is wired backwards", suspected.words());
    assertEquals(Set.of("left.1", "left.2", "right.1", "right.2"), coils(suspected));
    String page = JobCardPage.write(card);
    assertTrue(page.contains("<polyline class=\"suspected\""), "no dashed curve");
    assertTrue(page.contains(">driver left or right is wired</text>"), "no name at the line");
    assertTrue(page.contains(">left: look here</text>"), "no mark in the wiring");
    assertTrue(page.contains("<g class=\"expected\">"), "no band");
  }

  @Test
  void oneCoilIsMarkedAlone() {
    JobCard card = suspecting(0.99, "coil-shorted:right.2", "coil 2 of driver right is shorted");
    assertEquals(Set.of("right.2"), coils(card.backdrop().suspected().orElseThrow()));
  }

  @Test
  void aFaultOfTheWholeBoxMarksNoCoilAndAnotherBoxHasNoCurve() {
    String other =
        Diagnosis.usualFaults(PLAN, Rates.USUAL).stream()
            .filter(each -> each.id().startsWith("other-box"))
            .findFirst()
            .orElseThrow()
            .sentence();
    Suspected suspected = suspecting(0.99, "leak:main", other).backdrop().suspected().orElseThrow();
    assertEquals(Set.of(), suspected.coils());
    assertTrue(suspected.curve().isEmpty(), "a curve of another box was foretold");
  }

  @Test
  void whatIsImprobableIsNotDrawn() {
    JobCard card = suspecting(0.04, "leak:main", "driver left is wired backwards");
    assertTrue(card.backdrop().suspected().isEmpty());
    assertTrue(card.backdrop().expected().isPresent());
  }
}
