package conewise.station.lab;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.answer.SchemaCheck;
import conewise.station.command.CommandRun;
import conewise.station.files.BadFileException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LabMarkTest {
  private static final String HEAD = "question,value,unit\n";

  @TempDir Path folder;

  private Path file(String text) throws Exception {
    Path file = folder.resolve("answers.csv");
    Files.writeString(file, text);
    return file;
  }

  private CommandRun mark(String text, String... more) throws Exception {
    List<String> words = new ArrayList<>(List.of("lab", "mark", file(text).toString()));
    words.addAll(List.of("--student", "17"));
    words.addAll(List.of(more));
    return CommandRun.of(words.toArray(String[]::new));
  }

  @Test
  void theKeyIsMarkedRightForEveryStudent() throws Exception {
    for (long number = 1; number <= 3; number++) {
      Student student = Student.of(number * number * number);
      String key = AnswerKey.asAnswers(Assignments.of(student));
      Marking marking = Marking.of(file(key), student);
      assertEquals(marking.marks().size(), marking.right(), String.join("\n", marking.lines()));
    }
  }

  @Test
  void eachKnownMistakeIsNamedWhereItLeadsAstray() {
    int named = 0;
    for (long number = 1; number <= 3; number++) {
      for (Assignment assignment : Assignments.of(Student.of(number)).all()) {
        for (Question question : assignment.questions()) {
          if (question.key() instanceof Key.Figure key) {
            for (Trap trap : key.traps()) {
              Mark mark = Marker.mark("x", key, new Answer.Figure(trap.value()));
              boolean within = Math.abs(trap.value() / key.truth() - 1) <= key.tolerance();
              assertEquals(within, mark.grade() == Mark.Grade.RIGHT, question.name());
              if (!within) {
                String which = number + " " + assignment.idOf(question) + ": " + mark.because();
                assertTrue(mentions(key, mark, trap), which);
                named++;
              }
            }
          }
        }
      }
    }
    assertTrue(named > 80, named + " traps");
  }

  /** Two traps that lead to nearly the same number cannot be told apart; either may be named. */
  private static boolean mentions(Key.Figure key, Mark mark, Trap trap) {
    return key.traps().stream()
        .filter(other -> Math.abs(other.value() / trap.value() - 1) < 0.03)
        .anyMatch(other -> mark.because().contains(other.words()));
  }

  /** The figures of the key itself are held to the fit elsewhere; here the arithmetic. */
  @Test
  void wrongNumbersAreToldByHowMuchAndWhichWay() {
    Key.Figure key = new Key.Figure(40, LabUnit.HERTZ, 0.02, List.of(new Trap(33, "the dip")));
    assertEquals(
        "10 % too high, 2 % is allowed.", Marker.mark("q", key, new Answer.Figure(44)).because());
    assertEquals(
        "17.5 % too low, 2 % is allowed; the dip.",
        Marker.mark("q", key, new Answer.Figure(33)).because());
    assertEquals(0.1, Marker.mark("q", key, new Answer.Figure(44)).off().orElseThrow(), 1e-12);
    String turn = Marker.mark("q", key, new Answer.Figure(251.327)).because();
    assertTrue(turn.startsWith("6.283 times the right value"), turn);
    assertTrue(turn.contains("rad/s for Hz"), turn);
    String unit = Marker.mark("q", key, new Answer.Figure(40_000)).because();
    assertTrue(unit.contains("a thousand times too large: look at the unit"), unit);
    assertTrue(
        Marker.mark("q", key, new Answer.Figure(-40)).because().contains("sign"), "negative");
  }

  @Test
  void theEdgesOfTheToleranceAreRight() {
    Key.Figure key = new Key.Figure(100, LabUnit.OHM, 0.02, List.of());
    assertEquals(Mark.Grade.RIGHT, Marker.mark("q", key, new Answer.Figure(101.999)).grade());
    assertEquals(Mark.Grade.RIGHT, Marker.mark("q", key, new Answer.Figure(98.001)).grade());
    assertEquals(Mark.Grade.WRONG, Marker.mark("q", key, new Answer.Figure(102.001)).grade());
    assertEquals(Mark.Grade.WRONG, Marker.mark("q", key, new Answer.Figure(97.999)).grade());
  }

  @Test
  void cannotBeDeterminedIsRightWhereItIsTrueAndWrongWhereNot() throws Exception {
    CommandRun right =
        mark(
            HEAD
                + "polarity.separate,Cannot be determined,\npolarity.which,cannot be determined\n");
    assertTrue(right.out().contains("2 of 6 right"), right.out());
    CommandRun wrong =
        mark(HEAD + "polarity.separate,together,\npolarity.shared,cannot be determined,\n");
    assertEquals(1, wrong.exitCode());
    assertTrue(wrong.out().contains("These data cannot tell."), wrong.out());
    assertTrue(wrong.out().contains("These data do tell."), wrong.out());
    assertTrue(wrong.out().contains("0 of 6 right"), wrong.out());
  }

  @Test
  void kilohmAreOhmAndWhatIsNotAnsweredCounts() throws Exception {
    double ohm =
        Assignments.of(Student.of(17), List.of(Experiment.FREE_AIR))
            .all()
            .get(0)
            .questions()
            .stream()
            .filter(question -> question.name().equals("re"))
            .mapToDouble(question -> ((Key.Figure) question.key()).truth())
            .findFirst()
            .orElseThrow();
    assertTrue(mark(HEAD + "free-air.re," + ohm / 1000 + ",kohm\n").out().contains("1 of 7 right"));
    CommandRun run = mark(HEAD + "free-air.re," + ohm + ",kohm\n");
    assertTrue(run.out().contains("look at the unit"), run.out());
    assertTrue(run.out().contains("not answered"), run.out());
  }

  @Test
  void everyBadLineIsOneSentenceWithItsNumber() throws Exception {
    CommandRun run =
        mark(
            "# mine\n"
                + HEAD
                + "free-air.fs,38,Hz\n"
                + "free-air.fz,1,\n"
                + "free-air.re,5;8,ohm\n"
                + "free-air.fs,38,Hz\n"
                + "free-air.qms,5,Hz\n"
                + "polarity.shared,maybe,\n"
                + "free-air.qes,5,5,5\n"
                + "free-air.qts,NaN,\n");
    assertEquals(65, run.exitCode());
    assertEquals("", run.out());
    for (int line : List.of(4, 5, 6, 7, 8, 9, 10)) {
      assertTrue(run.err().contains("line " + line + ": "), line + "\n" + run.err());
    }
    assertTrue(run.err().contains("free-air asks for fs, re, qms, qes, qts, mms, polarity."));
    assertTrue(run.err().contains("it is a pure number: leave the unit empty."), run.err());
    assertTrue(run.err().contains("allowed are together, against"), run.err());
  }

  @Test
  void anythingElseThanAnswersIsRefusedInASentence() throws Exception {
    assertEquals(65, mark("a,b\n1,2\n").exitCode());
    assertEquals(65, mark(HEAD).exitCode());
    assertEquals(65, mark("# only a comment\n").exitCode());
    assertEquals(
        65, CommandRun.of("lab", "mark", folder + "/none.csv", "--student", "1").exitCode());
    for (String number : List.of("0", "-1", "1000000000000", "x")) {
      CommandRun run = CommandRun.of("lab", "key", "--student", number);
      assertEquals(64, run.exitCode(), number);
      assertFalse(run.err().contains("Exception"), run.err());
    }
    CommandRun run = CommandRun.of("lab", "key", "--student", "1", "--experiment", "tea");
    assertEquals(64, run.exitCode());
    assertTrue(run.err().contains("free-air, added-mass"), run.err());
  }

  @Test
  void whateverIsHandedInIsMarkedOrRefused() throws Exception {
    long seed = System.nanoTime();
    SplittableRandom random = new SplittableRandom(seed);
    String key = AnswerKey.asAnswers(Assignments.of(Student.of(17)));
    int refused = 0;
    for (int i = 0; i < 25; i++) {
      StringBuilder text = new StringBuilder(key);
      for (int k = random.nextInt(1, 8); k > 0; k--) {
        int at = random.nextInt(text.length());
        char put = "\n,.\"#e-9\u00b5 \t\0x;".charAt(random.nextInt(14));
        if (random.nextBoolean()) {
          text.setCharAt(at, put);
        } else {
          text.delete(at, Math.min(text.length(), at + random.nextInt(30)));
        }
      }
      Optional<BadFileException> bad = refusal(text.toString(), seed);
      refused += bad.isPresent() ? 1 : 0;
      bad.ifPresent(
          each -> each.problems().forEach(one -> assertTrue(one.endsWith("."), seed + ": " + one)));
    }
    assertTrue(refused > 0, "seed " + seed);
  }

  private Optional<BadFileException> refusal(String text, long seed) throws Exception {
    try {
      Marking marking = Marking.of(file(text), Student.of(17));
      assertTrue(marking.right() <= marking.marks().size(), "seed " + seed);
      return Optional.empty();
    } catch (BadFileException bad) {
      return Optional.of(bad);
    }
  }

  @Test
  void theAnswerForProgramsFollowsTheSchema() throws Exception {
    CommandRun run =
        mark(HEAD + "free-air.fs,999,Hz\nfree-air.mms,cannot be determined,\n", "--json");
    JsonNode answer = new ObjectMapper().readTree(run.out());
    assertEquals(List.of(), SchemaCheck.named("answer-1").problems(answer));
    assertEquals(1, answer.get("right").asInt());
    assertEquals(1, run.exitCode());
  }

  /** What is made is made of one experiment only, to spare time; the pages' test makes them all. */
  @Test
  void theCommandsOfTheOtherPagesRun() throws Exception {
    Student student = new Student(17, "heath");
    Files.writeString(
        folder.resolve("17-answers.csv"), AnswerKey.asAnswers(Assignments.of(student)));
    Files.createDirectories(folder.resolve("keys"));
    int ran = 0;
    for (String page : List.of("README.md", "instructor.md")) {
      for (String line : Files.readAllLines(Path.of("..", "..", "docs", "lab", page))) {
        if (line.startsWith("./conewise ")) {
          List<String> words = new ArrayList<>();
          for (String word : line.substring("./conewise ".length()).split(" +", -1)) {
            boolean path = word.contains("/") || word.endsWith(".csv") || words.contains("--out");
            words.add(path && !word.startsWith("--") ? folder.resolve(word).toString() : word);
          }
          if (words.contains("make")) {
            words.addAll(List.of("--experiment", "voice-coil"));
          }
          CommandRun run = CommandRun.of(words.toArray(String[]::new));
          assertEquals(0, run.exitCode(), line + ": " + run.err());
          ran++;
        }
      }
    }
    assertEquals(4, ran);
  }

  @Test
  void thePagesSheetOfAnswersCanBeMarked() throws Exception {
    String page = Files.readString(Path.of("..", "..", "docs", "lab", "README.md"));
    String block = page.substring(page.indexOf("```csv\n") + 7);
    CommandRun run = mark(block.substring(0, block.indexOf("```")));
    assertTrue(run.exitCode() <= 1, run.err());
    assertTrue(run.out().contains("of 13 right"), run.out());
  }

  @Test
  void theCoursesWordChangesEverything() {
    String plain = AnswerKey.asAnswers(Assignments.of(Student.of(17)));
    String kept = AnswerKey.asAnswers(Assignments.of(new Student(17, "heath")));
    assertNotEquals(plain, kept);
    assertEquals(kept, AnswerKey.asAnswers(Assignments.of(new Student(17, "heath"))));
    assertThrows(IllegalArgumentException.class, () -> new Student(1, "x".repeat(101)));
  }

  @Test
  void oneExperimentAloneIsTheSameAsAmongAll() {
    Student student = Student.of(5);
    String all = AnswerKey.asAnswers(Assignments.of(student));
    for (Experiment each : Experiment.values()) {
      String alone = AnswerKey.asAnswers(Assignments.of(student, List.of(each)));
      assertTrue(all.contains(alone.substring(HEAD.length())), each.word());
    }
  }

  /** A fault that every student has, or none has, is no hidden one. */
  @Test
  void everyHiddenFaultComesAndStaysAway() {
    for (String id :
        List.of("polarity.shared", "vented-box.as-planned", "losses.part", "closed-box.seam")) {
      Experiment experiment = Experiment.named(id.substring(0, id.indexOf('.'))).orElseThrow();
      long kinds =
          java.util.stream.LongStream.rangeClosed(1, 7)
              .mapToObj(n -> Assignments.of(Student.of(n), List.of(experiment)).all().get(0))
              .flatMap(each -> each.questions().stream().filter(q -> id.endsWith("." + q.name())))
              .map(question -> ((Key.Word) question.key()).right())
              .distinct()
              .count();
      assertTrue(kinds >= 2, id + ": " + kinds);
    }
  }

  /** Neither the sheet nor the form of a question may say whether it can be determined. */
  @Test
  void noTaskSheetGivesTheKeyAway() {
    for (long number = 1; number <= 2; number++) {
      Student student = Student.of(number);
      for (Assignment assignment : Assignments.of(student).all()) {
        String sheet = TaskSheet.write(student, assignment);
        for (Question question : assignment.questions()) {
          if (question.key() instanceof Key.Figure key) {
            String figure = conewise.station.card.Figures.plain(key.truth());
            boolean telling = figure.replace(".", "").length() >= 4;
            assertFalse(telling && sheet.contains(figure), question.name() + " " + figure);
          }
          String because = AnswerKey.because(question.key());
          assertFalse(!because.isEmpty() && sheet.contains(because), because);
        }
      }
    }
  }
}
