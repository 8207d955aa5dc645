package conewise.station.lab;

import conewise.station.files.BadFileException;
import conewise.station.files.NumberText;
import conewise.station.files.TextFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * Reads {@code question,value,unit} with one line for each question; {@code #} begins a comment.
 */
final class AnswersFile {
  private static final long MOST_BYTES = 64 << 10;
  private static final String HEADER = "question,value,unit";
  private static final int COLUMNS = 3;
  private static final int SHOWN = 40;

  private final Path file;
  private final Map<String, Question> questions;
  private final Map<String, Answer> answers = new LinkedHashMap<>();
  private final List<String> problems = new ArrayList<>();

  private AnswersFile(Path file, Map<String, Question> questions) {
    this.file = file;
    this.questions = questions;
  }

  /**
   * Reads the answers.
   *
   * @param questions by their full names
   * @return the answers by the full names of their questions, in the order of the file
   * @throws BadFileException with a sentence for each bad line
   */
  static Map<String, Answer> read(Path file, Map<String, Question> questions)
      throws BadFileException {
    AnswersFile reading = new AnswersFile(file, questions);
    List<String> lines = TextFile.lines(file, MOST_BYTES);
    boolean headed = false;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      if (!headed) {
        reading.header(line, i + 1);
        headed = true;
      } else {
        reading.line(line, i + 1);
      }
    }
    if (!headed) {
      throw new BadFileException(file + " has no line; its first must be " + HEADER + ".");
    }
    if (!reading.problems.isEmpty()) {
      throw new BadFileException(reading.problems);
    }
    return reading.answers;
  }

  private void header(String line, int number) throws BadFileException {
    String plain = line.replace(" ", "").replace("\"", "").toLowerCase(Locale.ROOT);
    if (!plain.equals(HEADER)) {
      throw new BadFileException(
          at(number) + "the header is " + shown(line) + "; it must be " + HEADER + ".");
    }
  }

  private void line(String line, int number) {
    String[] cells = line.split(",", -1);
    if (cells.length < 2 || cells.length > COLUMNS) {
      problem(
          number,
          "the line has "
              + cells.length
              + " values instead of 3: question, value, unit; decimals need a point, not a comma.");
      return;
    }
    String id = cell(cells, 0);
    Question question = questions.get(id);
    if (question == null) {
      problem(number, "there is no question " + shown(id) + "; " + near(id));
      return;
    }
    if (answers.containsKey(id)) {
      problem(number, id + " is answered twice; keep one of the two.");
      return;
    }
    answers.put(id, new Answer.None());
    String value = cell(cells, 1);
    if (value.isEmpty()) {
      return;
    }
    if (value.equalsIgnoreCase(Key.UNDETERMINED)) {
      answers.put(id, new Answer.Undetermined());
    } else if (question.key().form().isNumber()) {
      number(id, question.key().form(), value, cell(cells, 2), number);
    } else {
      word(id, question.key().form(), value, number);
    }
  }

  private void number(String id, Key.Form key, String value, String unit, int line) {
    OptionalDouble figure = NumberText.parse(value);
    if (figure.isEmpty()) {
      problem(
          line,
          id
              + " is answered "
              + shown(value)
              + "; write "
              + NumberText.ALLOWED
              + ", or \""
              + Key.UNDETERMINED
              + "\".");
      return;
    }
    OptionalDouble factor = key.unit().factor(unit);
    if (factor.isEmpty()) {
      problem(
          line,
          id
              + " has the unit "
              + shown(unit)
              + "; "
              + (key.unit() == LabUnit.PURE
                  ? "it is a pure number: leave the unit empty."
                  : "allowed are " + key.unit().allowed() + "."));
      return;
    }
    answers.put(id, new Answer.Figure(figure.getAsDouble() * factor.getAsDouble()));
  }

  private void word(String id, Key.Form key, String value, int line) {
    String word = value.toLowerCase(Locale.ROOT);
    if (!key.words().contains(word)) {
      problem(
          line,
          id
              + " is answered "
              + shown(value)
              + "; allowed are "
              + String.join(", ", key.words())
              + ", or \""
              + Key.UNDETERMINED
              + "\".");
      return;
    }
    answers.put(id, new Answer.Word(word));
  }

  private String near(String id) {
    String experiment = id.contains(".") ? id.substring(0, id.indexOf('.')) : id;
    String known =
        questions.keySet().stream()
            .filter(each -> each.startsWith(experiment + "."))
            .map(each -> each.substring(experiment.length() + 1))
            .collect(Collectors.joining(", "));
    return known.isEmpty()
        ? "the experiments are " + Experiment.words() + ", as in free-air.fs."
        : experiment + " asks for " + known + ".";
  }

  private static String cell(String[] cells, int place) {
    if (place >= cells.length) {
      return "";
    }
    String cell = cells[place].strip();
    boolean quoted = cell.length() >= 2 && cell.startsWith("\"") && cell.endsWith("\"");
    return quoted ? cell.substring(1, cell.length() - 1).strip() : cell;
  }

  private void problem(int line, String sentence) {
    problems.add(at(line) + sentence);
  }

  private String at(int line) {
    return file + ", line " + line + ": ";
  }

  private static String shown(String text) {
    String tame = conewise.station.card.PlainText.tame(text);
    return "\"" + (tame.length() > SHOWN ? tame.substring(0, SHOWN) + "..." : tame) + "\"";
  }
}
