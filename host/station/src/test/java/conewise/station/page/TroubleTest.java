package conewise.station.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.station.card.SampleCards;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Which trouble's sign stands beside a verdict. */
class TroubleTest {
  private static final Map<Kind, Trouble> SHOWN =
      Map.of(
          Kind.TOO_NOISY, Trouble.NOISE,
          Kind.LOOSE_CLIP, Trouble.NOISE,
          Kind.FOREIGN_VOLTAGE, Trouble.VOLTAGE,
          Kind.OTHER_BOX, Trouble.WRONG_JOB,
          Kind.FIXTURE, Trouble.FIXTURE);

  private static Verdict verdict(Decision decision, Kind kind, boolean spoils) {
    Verdict passed = SampleCards.passed().verdict();
    return new Verdict(
        decision,
        "As the test says.",
        Optional.empty(),
        passed.checks(),
        List.of(),
        passed.notShown(),
        List.of(
            new BenchFinding(Kind.COVERAGE, false, "A frequency is left out.", "Go on."),
            new BenchFinding(kind, spoils, "Something is so.", "Do something.")),
        List.of());
  }

  @Test
  void theSignIsThatOfTheFindingThatSpoils() {
    for (Kind kind : Kind.values()) {
      assertEquals(
          Optional.ofNullable(SHOWN.get(kind)),
          Trouble.toBlameFor(verdict(Decision.NOT_JUDGED, kind, true)),
          kind::name);
    }
  }

  @Test
  void aVerdictThatStandsHasNoSignBesideIt() {
    for (Kind kind : Kind.values()) {
      assertEquals(Optional.empty(), Trouble.toBlameFor(verdict(Decision.PASS, kind, true)));
      assertEquals(Optional.empty(), Trouble.toBlameFor(verdict(Decision.FAIL, kind, true)));
      assertEquals(Optional.empty(), Trouble.toBlameFor(verdict(Decision.NOT_JUDGED, kind, false)));
    }
  }

  @Test
  void noTwoTroublesLookAlikeWithoutTheirColours() {
    List<String> shapes =
        Arrays.stream(Trouble.values())
            .map(each -> each.sign().replaceAll(".*class=\"shape\" d=\"([^\"]*)\".*", "$1"))
            .toList();
    assertEquals(Trouble.values().length, new HashSet<>(shapes).size(), shapes::toString);
    assertTrue(shapes.stream().allMatch(each -> each.matches("M[^\"]*Z")), shapes::toString);
    assertEquals("Wrong job.", Trouble.WRONG_JOB.said());
  }
}
