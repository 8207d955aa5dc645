package conewise.station.box;

import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.driver.FigureText;
import java.util.List;

/** A fitted box's figures as plain text of at most 80 columns. */
public final class BoxText {
  private BoxText() {}

  /** Writes a table for each part, what is not told and why, and the notes. */
  public static List<String> write(BoxAnswer answer) {
    FigureText text = new FigureText();
    text.paragraph("", "Fitted to the plan \"" + answer.plan().name() + "\":");
    for (int i = 0; i < answer.sweeps().size(); i++) {
      BoxSweep sweep = answer.sweeps().get(i);
      String words = sweep.state().words() + ": " + sweep.file();
      String extent = FigureText.extent(answer.fitted().fit().sweeps().get(i).curve());
      text.paragraph("  - ", words + ", " + extent);
    }
    text.line("");
    text.head();
    for (FigureGroup group : answer.groups()) {
      text.paragraph("", group.title() + ":");
      text.table(group.figures());
      group.readings().forEach(reading -> reading(reading, text));
    }
    text.missing(answer.groups().stream().flatMap(group -> group.figures().stream()).toList());
    openSets(answer.openSets(), text);
    text.line("");
    answer.remarks().forEach(note -> text.paragraph("Note: ", note));
    return text.lines();
  }

  private static void reading(TuningReading reading, FigureText text) {
    if (reading.hertz() instanceof Outcome.Found<Double> found) {
      text.line(FigureText.row("", reading.name(), Figures.plain(found.value()) + " Hz", ""));
      text.paragraph("        ", "not the tuning: it " + reading.bias());
    } else if (reading.hertz() instanceof Outcome.NoResult<Double> none) {
      text.paragraph("        ", reading.name() + ": none, " + none.because());
    }
  }

  private static void openSets(List<OpenSet> sets, FigureText text) {
    if (!sets.isEmpty()) {
      text.line("");
    }
    for (OpenSet set : sets) {
      boolean one = set.unknowns().size() == 1;
      text.paragraph(
          one ? "Hardly shows in the curve: " : "May change together unseen: ",
          String.join(", ", set.unknowns()) + ".");
      text.paragraph("    " + (one ? "To tell it: " : "To tell them apart: "), set.settling());
    }
  }
}
