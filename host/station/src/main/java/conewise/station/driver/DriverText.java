package conewise.station.driver;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import conewise.station.card.PlainText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A driver's parameters as plain text of at most 80 columns. */
public final class DriverText {
  private static final int WIDTH = 80;

  private final List<String> lines = new ArrayList<>();

  private DriverText() {}

  /** Writes a table of the parameters, then why some are missing, then the notes. */
  public static List<String> write(BareDriver driver) {
    DriverText text = new DriverText();
    text.sweeps(driver.sweeps());
    text.table(driver.figures());
    text.missing(driver.figures());
    text.lines.add("");
    driver.notes().forEach(note -> text.paragraph("Note: ", note));
    return List.copyOf(text.lines);
  }

  private void sweeps(List<DriverSweep> sweeps) {
    lines.add(sweeps.size() == 1 ? "Fitted:" : sweeps.size() + " sweeps, fitted together:");
    for (DriverSweep sweep : sweeps) {
      paragraph("  - ", sweep.state().words() + ": " + sweep.file() + ", " + extent(sweep.curve()));
    }
  }

  private static String extent(ImpedanceCurve curve) {
    boolean dc = curve.lowestHz() == 0 && curve.points().size() > 1;
    double lowest = dc ? curve.points().get(1).frequencyHz() : curve.lowestHz();
    return curve.points().size()
        - (dc ? 1 : 0)
        + " points, "
        + Figures.plain(lowest)
        + " to "
        + Figures.plain(curve.highestHz())
        + " Hz"
        + (dc ? " and DC" : "");
  }

  private void table(List<DriverFigure> figures) {
    lines.add("");
    lines.add(row("", "", "value", "95 % interval"));
    for (DriverFigure figure : figures) {
      if (figure.outcome() instanceof Outcome.Found<Estimate> found) {
        Estimate estimate = found.value();
        Reading reading = new Reading(estimate.value(), estimate.interval(), figure.unit());
        boolean given = figure.given();
        lines.add(
            row(
                figure.symbol(),
                figure.name(),
                given ? stated(reading) : Figures.value(reading),
                given ? "as given" : Figures.interval(reading)));
      }
    }
  }

  private static String stated(Reading reading) {
    return Figures.plain(reading.value()) + " " + reading.unit();
  }

  private static String row(String symbol, String name, String value, String interval) {
    return String.format(Locale.ROOT, "  %-4s %-27s %-14s %s", symbol, name, value, interval)
        .stripTrailing();
  }

  /** Each reason once, with all parameters that it holds for. */
  private void missing(List<DriverFigure> figures) {
    Map<String, List<String>> symbols = new LinkedHashMap<>();
    for (DriverFigure figure : figures) {
      if (figure.outcome() instanceof Outcome.NoResult<Estimate> none) {
        String own = figure.symbol() + " ";
        String because = none.because();
        boolean named = because.startsWith(own);
        symbols
            .computeIfAbsent(
                named ? because.substring(own.length()) : ": " + because, key -> new ArrayList<>())
            .add(figure.symbol());
      }
    }
    if (!symbols.isEmpty()) {
      lines.add("");
    }
    symbols.forEach(
        (because, those) -> {
          String gap = because.startsWith(":") ? "" : " ";
          paragraph("Not told: ", listed(those) + gap + because + ".");
        });
  }

  private static String listed(List<String> words) {
    int last = words.size() - 1;
    return last == 0
        ? words.get(0)
        : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }

  /** Text behind a head; further lines stand under the text. */
  private void paragraph(String head, String text) {
    String lead = head;
    for (String line : PlainText.wrap(text, WIDTH - head.length())) {
      lines.add(lead + line);
      lead = " ".repeat(head.length());
    }
  }
}
