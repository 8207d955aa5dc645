package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.judgement.Decision;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.Figures;
import conewise.station.card.PlainText;
import conewise.station.chart.TrendChart;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.ControlChart;
import conewise.station.records.trend.ReadFigure;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code records trend}. */
@Command(
    name = "trend",
    mixinStandardHelpOptions = true,
    description = "A figure of the boxes that passed, in order of time, with control limits.")
final class RecordsTrendCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Parameters(
      paramLabel = "FIGURE",
      description = "A check such as tuning or dc-resistance, or one like peak-1-hz.")
  private String figure;

  @Option(
      names = "--newest",
      paramLabel = "N",
      defaultValue = "200",
      description = "The newest so many boxes (default ${DEFAULT-VALUE}).")
  private int newest;

  @Option(
      names = "--baseline",
      paramLabel = "N",
      description = "The limits rest on the first so many of them; all of them otherwise.")
  private Optional<Integer> baseline = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    requireBaseline();
    List<ReadFigure> figures;
    List<String> names;
    try (RecordStore store = place.open()) {
      RunFilter passed = passed(filter.filter(newest));
      figures = store.figures(figure, passed);
      names = figures.isEmpty() ? store.figureNames(passed) : List.of();
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    if (figures.isEmpty()) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "No box that passed has a figure \""
              + figure
              + "\"; there are "
              + (names.isEmpty() ? "none yet" : String.join(", ", names))
              + ".");
    }
    Outcome<ControlChart> chart = ControlChart.of(figures, baseline.orElse(figures.size()));
    if (chart instanceof Outcome.NoResult<ControlChart> none) {
      throw new CommandFailure(ExitCode.BAD_DATA, "No chart: " + none.because() + ".");
    }
    show(((Outcome.Found<ControlChart>) chart).value());
    return ExitCode.PASS.number();
  }

  private void requireBaseline() throws CommandFailure {
    if (baseline.isPresent() && baseline.get() < ControlChart.FEWEST) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--baseline is " + baseline.get() + "; it must be at least " + ControlChart.FEWEST + ".");
    }
  }

  /** A box with a fault tells of its fault; the drift is that of the boxes that passed. */
  static RunFilter passed(RunFilter filter) {
    return new RunFilter(
        filter.since(),
        filter.until(),
        filter.job(),
        filter.serial(),
        Optional.of(filter.decision().orElse(Decision.PASS)),
        filter.most());
  }

  private void show(ControlChart chart) {
    Screen screen = records.screen();
    if (answer.json) {
      screen.out().println(json(chart));
      return;
    }
    String unit = chart.figures().get(0).unit();
    screen.out().println(figure + (unit.isEmpty() ? "" : ", " + unit));
    TrendChart.lines(chart, screen.unicode()).forEach(screen.out()::println);
    screen.out().println();
    String sentence =
        String.format(
            Locale.ROOT,
            "%d boxes; mean %s, limits %s to %s from the first %d. The limits say what the shop"
                + " does by itself; they are no tolerance.",
            chart.figures().size(),
            Figures.plain(chart.mean()),
            Figures.plain(chart.low()),
            Figures.plain(chart.high()),
            chart.baseline());
    PlainText.wrap(sentence, 80).forEach(screen.out()::println);
    for (ControlChart.Signal signal : chart.signals()) {
      ReadFigure box = chart.figures().get(signal.place());
      screen
          .out()
          .println(
              PlainText.tame(box.serial())
                  + " (run "
                  + box.run()
                  + "): "
                  + Figures.plain(box.value())
                  + (signal.kind() == ControlChart.Kind.BEYOND
                      ? ", beyond a limit"
                      : ", the eighth or later in a row on one side of the mean"));
    }
  }

  private ObjectNode json(ControlChart chart) {
    ObjectNode json = JsonAnswer.of("records trend", ExitCode.PASS);
    json.put("figure", figure).put("unit", chart.figures().get(0).unit());
    json.put("mean", chart.mean()).put("mean_moving_range", chart.meanMovingRange());
    json.put("low", chart.low()).put("high", chart.high()).put("baseline", chart.baseline());
    ArrayNode points = json.putArray("points");
    for (ReadFigure each : chart.figures()) {
      points
          .addObject()
          .put("run", each.run())
          .put("serial", each.serial())
          .put("finished", each.finished().toString())
          .put("value", each.value());
    }
    for (ControlChart.Signal signal : chart.signals()) {
      ((ObjectNode) points.get(signal.place()))
          .put("unlike_chance", signal.kind().name().toLowerCase(Locale.ROOT));
    }
    return json;
  }
}
