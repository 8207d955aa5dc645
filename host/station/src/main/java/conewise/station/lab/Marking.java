package conewise.station.lab;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.card.PlainText;
import conewise.station.files.BadFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** A student's answers held against the key. */
public final class Marking {
  private static final int WIDTH = 80;
  private static final String INDENT = "      ";

  private final Student student;
  private final List<Mark> marks;

  private Marking(Student student, List<Mark> marks) {
    this.student = student;
    this.marks = List.copyOf(marks);
  }

  /**
   * Marks a file of answers. Experiments of which it has no line are left out; of the others every
   * question counts.
   *
   * @throws BadFileException when it cannot be read, with a sentence for each bad line
   */
  public static Marking of(Path answers, Student student) throws BadFileException {
    Map<String, Question> questions = new LinkedHashMap<>();
    for (Assignment assignment : Assignments.of(student).all()) {
      assignment.questions().forEach(each -> questions.put(assignment.idOf(each), each));
    }
    Map<String, Answer> said = AnswersFile.read(answers, questions);
    Set<String> experiments =
        said.keySet().stream().map(Marking::experiment).collect(Collectors.toSet());
    List<Mark> marks = new ArrayList<>();
    questions.forEach(
        (id, question) -> {
          if (experiments.contains(experiment(id))) {
            Answer answer = said.getOrDefault(id, new Answer.None());
            marks.add(Marker.mark(id, question.key(), answer));
          }
        });
    if (marks.isEmpty()) {
      throw new BadFileException(answers + " answers no question; fill in a line and mark again.");
    }
    return new Marking(student, marks);
  }

  private static String experiment(String id) {
    return id.substring(0, id.indexOf('.'));
  }

  List<Mark> marks() {
    return marks;
  }

  /** How many are right. */
  public long right() {
    return marks.stream().filter(each -> each.grade() == Mark.Grade.RIGHT).count();
  }

  /** Pass where all are right, else fail. */
  public ExitCode exitCode() {
    return right() == marks.size() ? ExitCode.PASS : ExitCode.FAIL;
  }

  /** For people. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add("Student " + student.number());
    lines.add("");
    for (Mark each : marks) {
      lines.add(String.format(Locale.ROOT, "  %-26s %s", each.question(), each.grade().word()));
      if (each.grade() == Mark.Grade.WRONG) {
        PlainText.wrap(each.because(), WIDTH - INDENT.length())
            .forEach(line -> lines.add(INDENT + line));
      }
    }
    lines.add("");
    lines.add(right() + " of " + marks.size() + " right.");
    return List.copyOf(lines);
  }

  /** For programs. */
  public ObjectNode json() {
    ObjectNode answer = JsonAnswer.of("lab", exitCode());
    answer.put("student", student.number()).put("right", right()).put("questions", marks.size());
    ArrayNode array = answer.putArray("marks");
    for (Mark each : marks) {
      ObjectNode node =
          array
              .addObject()
              .put("question", each.question())
              .put("mark", each.grade().word().replace(' ', '-'))
              .put("because", each.because());
      each.off().ifPresent(off -> node.put("off_by_part", off));
    }
    return answer;
  }
}
