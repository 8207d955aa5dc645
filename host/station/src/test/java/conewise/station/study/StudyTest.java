package conewise.station.study;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.measuring.StopRequest;
import conewise.station.study.StudyReading.Figure;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** A small study; the whole one is a command. Truth is built by the simulator's physics alone. */
class StudyTest {
  private static final long SEED = 7;
  private static final int BOXES = 200;
  private static final int FEW_BOXES = 16;

  private static Study study(long seed, StopRequest stop) throws Exception {
    return new Study(StudyPlan.all(), seed, ProgressLine.silent(screen()), stop);
  }

  private static Screen screen() {
    PrintStream nowhere =
        new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8);
    return new Screen(nowhere, nowhere, false, false, false);
  }

  /** A part of the study whose figures stand in docs/diagnosis.md, with the same seed. */
  @Test
  void theFirstBoxesOfTheStudyKeepWhatIsAskedOfTheJudge() throws Exception {
    try (StopRequest stop = StopRequest.listen()) {
      List<StudyCase> cases = study(SEED, stop).all(BOXES, ProgressLine.silent(screen()));
      StudyTable table = new StudyTable(cases);
      String story =
          String.join("\n", table.lines()) + "\n" + String.join("\n", CaseStory.surprises(cases));
      assertEquals(BOXES, cases.size());
      assertEquals(0, table.reversedPassed(), story);
      assertTrue(table.goodFailed() <= 0.005, story);
      assertTrue(table.undecided() <= 0.03, story);
      assertEquals(0, table.foreseenPassed(), story);
      assertTrue(table.namedInSet() >= 0.95, story);
      assertTrue(table.error(Figure.TUNING) <= 0.01, story);
      for (Figure figure : Figure.values()) {
        assertTrue(table.coverage(figure) >= 0.93, story);
      }
    }
  }

  @Test
  void noReversedDriverPassesWhateverTheSeed() throws Exception {
    long seed = new Random().nextLong();
    System.out.println("study of " + FEW_BOXES + " boxes, seed " + seed);
    try (StopRequest stop = StopRequest.listen()) {
      List<StudyCase> cases = study(seed, stop).all(FEW_BOXES, ProgressLine.silent(screen()));
      assertEquals(0, new StudyTable(cases).reversedPassed(), "seed " + seed);
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
