package conewise.station.answer;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.card.JobCard;
import conewise.station.card.PlainText;
import conewise.station.card.VerdictSign;
import conewise.station.chart.Drawing;
import conewise.station.chart.TerminalChart;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A judged box as plain text of at most 80 columns: the verdict first, the details after it. */
public final class TextAnswer {
  private static final int WIDTH = 80;
  private static final int[] COLUMNS = {24, 12, 16, 13, 10};

  private final JobCard card;
  private final Screen screen;
  private final List<String> lines = new ArrayList<>();

  private TextAnswer(JobCard card, Screen screen) {
    this.card = card;
    this.screen = screen;
  }

  /**
   * Writes the answer.
   *
   * @param card what to show
   * @param screen what can be shown
   * @return the lines
   */
  public static List<String> write(JobCard card, Screen screen) {
    return new TextAnswer(card, screen).write();
  }

  private List<String> write() {
    verdict();
    checks();
    curve();
    list("May be wrong, likeliest first", card.verdict().suspects().stream().map(this::suspect));
    list("Tests that would tell more", card.verdict().tests().stream().map(this::test));
    list("The bench", card.verdict().bench().stream().map(this::finding));
    list("This sweep cannot show", card.verdict().notShown().stream());
    return List.copyOf(lines);
  }

  private void verdict() {
    VerdictSign sign = VerdictSign.of(card.verdict().decision());
    StringBuilder first = new StringBuilder();
    first.append(screen.tinted(" " + sign.word() + " " + sign.shape() + " ", sign.hue()));
    card.serial().ifPresent(serial -> first.append("  ").append(PlainText.tame(serial)));
    first.append("  ").append(PlainText.tame(card.plan().name()));
    card.attempt().ifPresent(attempt -> first.append("  attempt ").append(attempt));
    lines.add(screen.colour() ? first.toString() : first.toString().stripLeading());
    lines.addAll(PlainText.wrap(card.verdict().headline(), WIDTH));
    card.verdict().action().ifPresent(action -> paragraph("Do next: ", action));
  }

  private void checks() {
    if (card.verdict().checks().isEmpty()) {
      return;
    }
    lines.add("");
    row("Check", "value", "95 % interval", "limits", "decision");
    for (Check check : card.verdict().checks()) {
      Optional<Check.Reading> reading = reading(check);
      row(
          check.title(),
          reading.map(Figures::value).orElse("none"),
          reading.map(Figures::interval).orElse("none"),
          check.limits().map(Figures::limits).orElse("none set"),
          VerdictSign.of(check.decision()).word());
      if (check.decision() != Decision.PASS) {
        paragraph("    ", check.reason());
        check.nextStep().ifPresent(step -> paragraph("    ", step));
      }
    }
  }

  /** Cells side by side; a long one goes on below itself. */
  private void row(String... cells) {
    List<List<String>> columns = new ArrayList<>();
    for (int i = 0; i < cells.length; i++) {
      columns.add(PlainText.wrap(cells[i], COLUMNS[i]));
    }
    int height = columns.stream().mapToInt(List::size).max().orElse(0);
    for (int y = 0; y < height; y++) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < cells.length; i++) {
        String cell = y < columns.get(i).size() ? columns.get(i).get(y) : "";
        line.append(cell).append(" ".repeat(COLUMNS[i] + 1 - cell.length()));
      }
      lines.add(line.toString().stripTrailing());
    }
  }

  private static Optional<Check.Reading> reading(Check check) {
    return check.reading() instanceof Outcome.Found<Check.Reading> found
        ? Optional.of(found.value())
        : Optional.empty();
  }

  private void curve() {
    lines.add("");
    Outcome<Drawing> drawing = Drawing.of(card);
    if (drawing instanceof Outcome.Found<Drawing> found) {
      lines.addAll(TerminalChart.draw(found.value(), screen.unicode()));
    } else if (drawing instanceof Outcome.NoResult<Drawing> none) {
      paragraph("No curve: ", none.because());
    }
  }

  private String suspect(Verdict.Suspect suspect) {
    String faults = String.join(" or ", suspect.faults());
    return faults + ": " + suspect.because() + " To settle it: " + suspect.test();
  }

  private String test(NextTest test) {
    return test.instruction()
        + test.results().stream()
            .map(result -> " If " + result.seen() + ": " + result.meaning() + ".")
            .collect(Collectors.joining());
  }

  private String finding(BenchFinding finding) {
    String weight = finding.spoils() ? "Spoils the measurement: " : "";
    return weight + finding.sentence() + " " + finding.nextStep();
  }

  private void list(String title, Stream<String> items) {
    List<String> all = items.toList();
    if (!all.isEmpty()) {
      lines.add("");
      lines.add(title + ":");
      all.forEach(item -> paragraph("  - ", item));
    }
  }

  /** Text behind a head; further lines stand under the text. */
  private void paragraph(String head, String text) {
    String indent = " ".repeat(head.startsWith(" ") ? head.length() : 4);
    String lead = head;
    int room = WIDTH - Math.max(head.length(), indent.length());
    for (String line : PlainText.wrap(text, room)) {
      lines.add(lead + line);
      lead = indent;
    }
  }
}
