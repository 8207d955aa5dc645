package conewise.station.report;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.outcome.Outcome;
import conewise.station.box.BoxAnswer;
import conewise.station.box.FigureGroup;
import conewise.station.box.FitRemarks;
import conewise.station.box.OpenSet;
import conewise.station.box.TuningReading;
import conewise.station.card.Figures;
import conewise.station.chart.FitCharts;
import conewise.station.chart.FitDrawing;
import conewise.station.chart.NyquistChart;
import conewise.station.driver.BareDriver;
import conewise.station.driver.DriverFigure;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A fit as one HTML page: curve, what is left over, Nyquist plot and table. No script, nothing
 * fetched, all text escaped; the same fit always gives the same bytes.
 */
public final class FitPage {
  private final StringBuilder html = new StringBuilder(131_072);

  private FitPage() {}

  /**
   * The page of a bare driver.
   *
   * @param title what it is called
   */
  public static String write(String title, BareDriver driver) {
    FitPage page = new FitPage();
    page.begin(title, "bare driver, fitted");
    List<String> states =
        driver.sweeps().stream().map(s -> s.state().words() + ": " + s.file()).toList();
    page.pictures(driver.fit(), states);
    page.table(
        List.of(
            new FigureGroup(
                FigureGroup.Kind.DRIVER, List.of(), "Parameters", driver.figures(), List.of())));
    page.notTold(driver.figures());
    List<String> notes = new ArrayList<>(driver.notes());
    notes.add(FitRemarks.quality(driver.fit()));
    page.list("What to know of these figures", notes);
    return page.end();
  }

  /** The page of a box. */
  public static String write(BoxAnswer box) {
    FitPage page = new FitPage();
    page.begin(box.plan().name(), "box, fitted to its plan");
    page.pictures(
        box.fitted().fit(),
        box.sweeps().stream().map(s -> s.state().words() + ": " + s.file()).toList());
    page.table(box.groups());
    page.notTold(box.groups().stream().flatMap(group -> group.figures().stream()).toList());
    page.list(
        "What these sweeps leave open", box.openSets().stream().map(OpenSet::sentence).toList());
    page.list("What to know of these figures", box.remarks());
    return page.end();
  }

  private void begin(String title, String kind) {
    add("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    add("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    add(Html.text(title)).add("</title>\n<style>\n").add(PageStyle.named("job-card.css"));
    add(PageStyle.named("fit.css")).add("</style>\n</head>\n<body class=\"fit\">\n<main>\n");
    add("<header>\n<p class=\"kind\"><span>Conewise, ").add(Html.text(kind));
    add("</span></p>\n<h1>").add(Html.text(title)).add("</h1>\n</header>\n");
  }

  private String end() {
    return add("</main>\n</body>\n</html>\n").html.toString();
  }

  private void pictures(BoxFit fit, List<String> states) {
    for (int i = 0; i < states.size(); i++) {
      FitDrawing drawing = FitDrawing.of(fit, i);
      add("<section class=\"sweep\">\n<h2>").add(Html.text(states.get(i))).add("</h2>\n");
      figure(FitCharts.curve(drawing, "curve-" + i), "");
      figure(
          FitCharts.residuals(drawing, "left-" + i),
          "Residual of the fit, in two bands: noise alone, and noise with what the model may be"
              + " off. More than one point in twenty outside the wider band means that something"
              + " is there which the model does not have.");
      figure(
          NyquistChart.draw(drawing, "nyquist-" + i),
          "Reactance against resistance, both on one scale: each resonance is nearly a circle.");
      add("</section>\n");
    }
  }

  private void figure(String svg, String caption) {
    add("<figure>\n").add(svg);
    if (!caption.isEmpty()) {
      add("<figcaption>").add(Html.text(caption)).add("</figcaption>\n");
    }
    add("</figure>\n");
  }

  private void table(List<FigureGroup> groups) {
    add("<section>\n<table class=\"figures\">\n<caption>Figures</caption>\n<thead><tr>");
    for (String head : List.of("Figure", "", "Value", "95 % interval")) {
      add("<th scope=\"col\">").add(head).add("</th>");
    }
    add("</tr></thead>\n");
    for (FigureGroup group : groups) {
      add("<tbody>\n<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"4\">");
      add(Html.text(group.title())).add("</th></tr>\n");
      group.figures().forEach(this::row);
      group.readings().forEach(this::reading);
      add("</tbody>\n");
    }
    add("</table>\n</section>\n");
  }

  private void row(DriverFigure figure) {
    figure
        .reading()
        .ifPresent(
            reading -> {
              add("<tr><th scope=\"row\">").add(Html.text(figure.symbol())).add("</th>");
              cell(figure.name());
              cell(
                  figure.given()
                      ? Figures.plain(reading.value()) + " " + reading.unit()
                      : Figures.value(reading));
              cell(figure.given() ? "as given" : Figures.interval(reading));
              add("</tr>\n");
            });
  }

  private void reading(TuningReading reading) {
    add("<tr class=\"reading\"><th scope=\"row\"></th>");
    add("<td>").add(Html.text(reading.name())).add(" <span class=\"reason\">not the tuning: it ");
    add(Html.text(reading.bias())).add("</span></td>");
    if (reading.hertz() instanceof Outcome.Found<Double> found) {
      cell(Figures.plain(found.value()) + " Hz");
      cell("");
    } else if (reading.hertz() instanceof Outcome.NoResult<Double> none) {
      add("<td colspan=\"2\" class=\"none\">none: ").add(Html.text(none.because())).add("</td>");
    }
    add("</tr>\n");
  }

  private void cell(String text) {
    add("<td>").add(Html.text(text)).add("</td>");
  }

  /** Each reason once. */
  private void notTold(List<DriverFigure> figures) {
    Map<String, List<String>> symbols = new LinkedHashMap<>();
    for (DriverFigure figure : figures) {
      if (figure.outcome() instanceof Outcome.NoResult<?> none) {
        symbols.computeIfAbsent(none.because(), key -> new ArrayList<>()).add(figure.symbol());
      }
    }
    List<String> items = new ArrayList<>();
    symbols.forEach((because, those) -> items.add(String.join(", ", those) + ": " + because + "."));
    list("Not told", items);
  }

  private void list(String title, List<String> items) {
    if (items.isEmpty()) {
      return;
    }
    add("<section>\n<h2>").add(title).add("</h2>\n<ul>\n");
    items.forEach(item -> add("<li>").add(Html.text(item)).add("</li>\n"));
    add("</ul>\n</section>\n");
  }

  private FitPage add(String text) {
    html.append(text);
    return this;
  }
}
