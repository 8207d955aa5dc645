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

/** Lines of at most 80 columns with figures, as the answers of a fit have them. */
public final class FigureText {
  private static final int WIDTH = 80;

  private final List<String> lines = new ArrayList<>();

  /** What was written so far. */
  public List<String> lines() {
    return List.copyOf(lines);
  }

  /** A line as it is. */
  public void line(String text) {
    lines.add(text);
  }

  /** How much of a curve there is, in a few words. */
  public static String extent(ImpedanceCurve curve) {
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

  /** The head of a table. */
  public void head() {
    lines.add(row("", "", "value", "95 % interval"));
  }

  /** A row for each figure that has a value. */
  public void table(List<DriverFigure> figures) {
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

  /** One row of a table. */
  public static String row(String symbol, String name, String value, String interval) {
    return String.format(Locale.ROOT, "  %-5s %-27s %-14s %s", symbol, name, value, interval)
        .stripTrailing();
  }

  /** Each reason once, with all parameters that it holds for. */
  public void missing(List<DriverFigure> figures) {
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

  /** Words with commas and an "and". */
  public static String listed(List<String> words) {
    int last = words.size() - 1;
    return last == 0
        ? words.get(0)
        : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }

  /** Text behind a head; further lines stand under the text. */
  public void paragraph(String head, String text) {
    String lead = head;
    for (String line : PlainText.wrap(text, WIDTH - head.length())) {
      lines.add(lead + line);
      lead = " ".repeat(head.length());
    }
  }
}
