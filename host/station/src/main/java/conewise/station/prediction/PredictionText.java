package conewise.station.prediction;

import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import conewise.station.chart.Lead;
import conewise.station.chart.WiringPicture;
import conewise.station.driver.FigureText;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** A prediction as plain text of at most 80 columns. */
public final class PredictionText {
  private static final String INDENT = "      ";

  private final FigureText text = new FigureText();
  private final PredictionAnswer answer;

  private PredictionText(PredictionAnswer answer) {
    this.answer = answer;
  }

  /** Writes curves, resistances, wiring, and what the terminals show. */
  public static List<String> write(PredictionAnswer answer) {
    PredictionText page = new PredictionText(answer);
    page.curves();
    page.resistances();
    page.wiring();
    page.shown();
    page.text.line("");
    page.text.paragraph("", answer.method());
    return page.text.lines();
  }

  private void curves() {
    text.paragraph(
        "",
        "What the plan \"" + answer.prediction().plan().name() + "\" will show, and its faults:");
    text.line("");
    row("good", "as planned", answer.good(), "");
    for (FaultGroup group : FaultGroup.values()) {
      List<NamedProspect> those = answer.of(group);
      if (!those.isEmpty()) {
        text.line("");
        text.line(group.title());
      }
      for (NamedProspect each : those) {
        String told = CurveWords.of(each.prospect().telling());
        row(each.name(), each.faults(), answer.shows(each), told);
      }
    }
  }

  private void row(String name, String faults, String shows, String told) {
    text.paragraph(String.format(Locale.ROOT, "%-6s", name), faults);
    text.paragraph(INDENT + "  ", shows);
    if (!told.isEmpty()) {
      text.paragraph(INDENT + "  > ", told);
    }
  }

  private void resistances() {
    text.line("");
    text.paragraph(
        "", "What an ohmmeter at the terminals reads; a right box: " + answer.allowed() + ".");
    for (SlipRow row : answer.slips()) {
      String range = row.range().isEmpty() ? "" : " (" + row.range() + ")";
      String head = String.format(Locale.ROOT, "  %-26s", row.reading() + range);
      text.line(head.stripTrailing() + "  a meter " + row.meter().words() + " it:");
      text.paragraph(INDENT, row.faults());
    }
    text.paragraph("  ", PredictionAnswer.POLARITY_AND_DC);
  }

  private void wiring() {
    text.line("");
    text.line("The wiring, lead by lead:");
    for (Lead lead : WiringPicture.leads(answer.prediction().plan().wiring())) {
      text.paragraph(
          String.format(Locale.ROOT, "  %-2s %-10s ", lead.letter(), lead.colour().words()),
          String.join("; ", lead.ends()));
    }
  }

  private void shown() {
    text.line("");
    text.line("What the terminals of this plan show:");
    for (Telling.Kind kind : Telling.Kind.values()) {
      List<NamedProspect> those = answer.told(kind);
      if (!those.isEmpty()) {
        text.paragraph(
            "  ",
            kind.words()
                + ": "
                + those.stream().map(NamedProspect::name).collect(Collectors.joining(", ")));
      }
    }
    for (NamedProspect never : answer.told(Telling.Kind.NEVER)) {
      for (Prospect.Unseen unseen : never.prospect().unseen()) {
        text.paragraph("  ", "Never shown: " + unseen.fault().sentence() + ".");
        unseen.tests().forEach(test -> text.paragraph("    ", test));
      }
    }
  }
}
