package conewise.station.lab;

import conewise.station.card.Figures;
import conewise.station.card.PlainText;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The right answers, for the instructor. */
public final class AnswerKey {
  private static final int WIDTH = 80;
  private static final String INDENT = "      ";

  private AnswerKey() {}

  /** The key in lines. */
  public static List<String> lines(Assignments assignments) {
    List<String> lines = new ArrayList<>();
    lines.add("Key of student " + assignments.student().number());
    for (Assignment assignment : assignments.all()) {
      lines.add("");
      lines.add(assignment.experiment().title());
      for (Question each : assignment.questions()) {
        lines.add(
            String.format(Locale.ROOT, "  %-26s %s", assignment.idOf(each), right(each.key())));
        String because = because(each.key());
        if (!because.isEmpty()) {
          PlainText.wrap(because, WIDTH - INDENT.length())
              .forEach(line -> lines.add(INDENT + line));
        }
      }
    }
    return List.copyOf(lines);
  }

  /** The right answer in a few words. */
  static String right(Key key) {
    if (key instanceof Key.Figure number) {
      return (Figures.plain(number.truth()) + " " + number.unit().word()).strip()
          + ", right within "
          + percent(number.tolerance())
          + " %";
    }
    return key instanceof Key.Word word ? word.right() : Key.UNDETERMINED;
  }

  /** Why, or where mistakes lead; empty where there is nothing to say. */
  static String because(Key key) {
    if (key instanceof Key.Word word) {
      return word.because();
    }
    if (key instanceof Key.Undetermined undetermined) {
      return undetermined.because();
    }
    List<String> traps = new ArrayList<>();
    for (Trap each : ((Key.Figure) key).traps()) {
      traps.add(Figures.plain(each.value()) + ": " + each.words() + ".");
    }
    return String.join(" ", traps);
  }

  static String percent(double part) {
    return Figures.plain(100 * part);
  }

  /**
   * A sheet of right answers, as a student would hand it in: what {@link Marking} must find right.
   */
  public static String asAnswers(Assignments assignments) {
    StringBuilder text = new StringBuilder("question,value,unit\n");
    for (Assignment assignment : assignments.all()) {
      for (Question each : assignment.questions()) {
        text.append(assignment.idOf(each)).append(',');
        if (each.key() instanceof Key.Figure number) {
          text.append(Figures.plain(number.truth())).append(',').append(number.unit().word());
        } else {
          text.append(right(each.key())).append(',');
        }
        text.append('\n');
      }
    }
    return text.toString();
  }
}
