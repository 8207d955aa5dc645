package conewise.station.judging;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A pass that a shop's rule on its bench does not let stand. */
public final class Withheld {
  private Withheld() {}

  /**
   * A pass becomes NOT_JUDGED with the reason and the next step; any other verdict stands, with a
   * note.
   *
   * @param kind of the note
   * @param rule what a pass needs, like "a pass needs a calibration that is in order"
   * @param sentence why it is not so
   * @param nextStep what to do about it
   */
  public static Verdict pass(
      Verdict verdict, BenchFinding.Kind kind, String rule, String sentence, String nextStep) {
    boolean blocks = verdict.decision() == Decision.PASS;
    List<BenchFinding> bench = new ArrayList<>();
    bench.add(new BenchFinding(kind, blocks, sentence, nextStep));
    bench.addAll(verdict.bench());
    return new Verdict(
        blocks ? Decision.NOT_JUDGED : verdict.decision(),
        blocks ? "Not judged: " + rule + ". " + sentence : verdict.headline(),
        blocks ? Optional.of(nextStep) : verdict.action(),
        verdict.checks(),
        verdict.suspects(),
        verdict.notShown(),
        bench,
        verdict.tests());
  }
}
