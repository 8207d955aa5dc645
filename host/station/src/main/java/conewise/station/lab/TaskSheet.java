package conewise.station.lab;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a student reads: task, data, questions; nothing of the answers. */
final class TaskSheet {
  private TaskSheet() {}

  /** The comments above a table. */
  static List<String> about(Student student, Assignment assignment, Measured measured) {
    return List.of(
        "Data of the lab, student "
            + student.number()
            + ", "
            + assignment.experiment().title()
            + ": "
            + measured.words(),
        "Made on a virtual jig: sense resistor 10 ohm, scales exact, leads of no resistance",
        "Units as the header says: Hz, ohm, V, A; standard uncertainty for each part, of noise"
            + " alone");
  }

  /** The task as Markdown. */
  static String write(Student student, Assignment assignment) {
    Experiment experiment = assignment.experiment();
    List<String> lines = new ArrayList<>();
    lines.add("# " + experiment.title());
    lines.add("");
    lines.add(
        "Student "
            + student.number()
            + ". How it is done, what it rests on and what goes wrong stands in docs/lab/"
            + experiment.word()
            + ".md.");
    lines.add("");
    lines.add("## Given");
    lines.add("");
    assignment.given().forEach(each -> lines.add("- " + each));
    lines.add("");
    data(lines, assignment);
    questions(lines, assignment);
    return String.join("\n", lines) + "\n";
  }

  private static void data(List<String> lines, Assignment assignment) {
    lines.add("## Data");
    lines.add("");
    lines.add("| file | what it is |");
    lines.add("|---|---|");
    for (Measured each : assignment.measured()) {
      lines.add("| `" + each.stem() + ".csv` | impedance of " + each.words() + " |");
      lines.add("| `" + each.stem() + "-raw.csv` | the raw voltage and current that it rests on |");
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "| `tone.csv` | one period of one tone on %s, for pencil and spreadsheet |",
            assignment.measured().get(0).words()));
    if (assignment.plan().isPresent()) {
      lines.add("| `plan.yaml` | what is known of the box, for `conewise fit` and `judge` |");
    }
    lines.add("");
    lines.add(
        "Each current sample was taken `current_delay_s` later than the voltage sample beside it.");
    lines.add("");
  }

  private static void questions(List<String> lines, Assignment assignment) {
    lines.add("## Questions");
    lines.add("");
    lines.add(
        "Write value and unit into `answers.csv`. Where these data do not tell, write `"
            + Key.UNDETERMINED
            + "`: it is right as often as it is true.");
    lines.add("");
    lines.add("| name | question | answer |");
    lines.add("|---|---|---|");
    for (Question each : assignment.questions()) {
      lines.add(
          "| `"
              + assignment.idOf(each)
              + "` | "
              + each.words()
              + " | "
              + each.key().form().described()
              + " |");
    }
  }

  /** The sheet that the student fills in. */
  static String emptyAnswers(Assignments assignments) {
    StringBuilder text =
        new StringBuilder(
            "# Student " + assignments.student().number() + "\nquestion,value,unit\n");
    for (Assignment assignment : assignments.all()) {
      for (Question each : assignment.questions()) {
        String unit = each.key().form().unit().word();
        text.append(assignment.idOf(each)).append(",,").append(unit).append('\n');
      }
    }
    return text.toString();
  }
}
