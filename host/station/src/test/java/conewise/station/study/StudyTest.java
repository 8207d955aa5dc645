package conewise.station.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.judgement.Decision;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.measuring.StopRequest;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** A small study; the whole one is a command. Truth is built by the simulator's physics alone. */
class StudyTest {
  private static final int BOXES = 32;

  private static Study study(long seed, StopRequest stop) throws Exception {
    return new Study(StudyPlan.all(), seed, ProgressLine.silent(screen()), stop);
  }

  private static Screen screen() {
    PrintStream nowhere =
        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8);
    return new Screen(nowhere, nowhere, false, false, false);
  }

  @Test
  void noReversedDriverPassesAndNoGoodBoxFails() throws Exception {
    long seed = new Random().nextLong();
    System.out.println("study of " + BOXES + " boxes, seed " + seed);
    try (StopRequest stop = StopRequest.listen()) {
      List<StudyCase> cases = study(seed, stop).all(BOXES, ProgressLine.silent(screen()));
      StudyTable table = new StudyTable(cases);
      String story = "seed " + seed + "\n" + String.join("\n", CaseStory.surprises(cases));
      assertEquals(0, table.reversedPassed(), story);
      assertEquals(
          0, table.count(c -> c.isGood() && c.verdict().decision() == Decision.FAIL), story);
      assertTrue(table.tuningError() < 0.01, story);
      assertEquals(BOXES, cases.size());
    }
  }

  @Test
  void aCaseIsTheSameByItselfAsAmongOthers() throws Exception {
    try (StopRequest stop = StopRequest.listen()) {
      StudyCase among = study(3, stop).all(3, ProgressLine.silent(screen())).get(2);
      StudyCase alone = study(3, stop).run(2);
      assertEquals(CaseStory.lines(among), CaseStory.lines(alone));
    }
  }
}
