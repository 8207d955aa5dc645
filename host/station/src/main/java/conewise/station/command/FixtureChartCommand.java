package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.chart.TrendChart;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.fixture.CheckChart;
import conewise.station.records.trend.ControlChart;
import conewise.station.report.CheckChartPage;
import conewise.station.selftest.CheckLog;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code fixture chart}: check resistors over time. */
@Command(
    name = "chart",
    mixinStandardHelpOptions = true,
    description =
        "What each jig read of its check resistors over time (selftest --resistor), with the limits"
            + " that it keeps by itself.")
final class FixtureChartCommand implements Callable<Integer> {
  @ParentCommand private FixtureCommand fixture;

  @Mixin private AnswerOptions answer;

  @Mixin private CalibrationShelfOption place;

  @Option(
      names = "--jig",
      paramLabel = "SERIAL",
      description = "Of this jig alone; of all that have readings otherwise.")
  private Optional<String> serial = Optional.empty();

  @Option(
      names = "--baseline",
      paramLabel = "N",
      defaultValue = "" + CheckChart.BASELINE,
      description = "The limits rest on the first so many readings (default ${DEFAULT-VALUE}).")
  private int baseline;

  @Option(
      names = "--report",
      paramLabel = "FILE",
      description = "A page (HTML) as well; one that is there is replaced.")
  private Optional<Path> report = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    if (baseline < ControlChart.FEWEST) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--baseline is " + baseline + "; it must be at least " + ControlChart.FEWEST + ".");
    }
    Map<String, List<CheckChart>> jigs = charts();
    boolean trouble =
        jigs.values().stream().flatMap(List::stream).anyMatch(each -> each.trouble().isPresent());
    ExitCode code = trouble ? ExitCode.FAIL : ExitCode.PASS;
    write(jigs);
    Screen screen = fixture.screen();
    if (answer.json) {
      screen.out().println(json(jigs, code));
    } else {
      jigs.forEach((jig, charts) -> charts.forEach(each -> text(screen, jig, each)));
      report.ifPresent(file -> screen.out().println("The page is in " + file));
    }
    return code.number();
  }

  private Map<String, List<CheckChart>> charts() throws CommandFailure {
    Map<String, List<CheckChart>> jigs = new LinkedHashMap<>();
    try {
      for (Path folder : place.shelf().jigs()) {
        String jig = folder.getFileName().toString().replaceFirst("^jig-", "");
        if (serial.isEmpty() || serial.get().equals(jig)) {
          CheckLog.Content content = CheckLog.in(folder).read();
          List<CheckChart> charts = CheckChart.of(content.readings(), baseline);
          if (!charts.isEmpty()) {
            jigs.put(jig, charts);
          }
        }
      }
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    if (jigs.isEmpty()) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "No check resistor was read "
              + serial.map(each -> "on the jig " + each).orElse("on any jig")
              + " yet; read one with conewise selftest --resistor.");
    }
    return jigs;
  }

  private void write(Map<String, List<CheckChart>> jigs) throws CommandFailure {
    if (report.isEmpty()) {
      return;
    }
    List<CheckChartPage.Part> parts = new ArrayList<>();
    jigs.forEach(
        (jig, charts) ->
            charts.forEach(
                each ->
                    parts.add(
                        new CheckChartPage.Part(
                            "Jig " + jig + ", check resistor " + each.resistor(),
                            each.chart(),
                            sentence(each)))));
    try {
      NewFile.writeText(report.get(), Existing.REPLACE, CheckChartPage.write(parts));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private static String sentence(CheckChart each) {
    return each.trouble()
        .orElse(
            each.chart() instanceof NoResult<ControlChart> none
                ? "No limits yet: " + none.because() + "."
                : "The latest reading is as ever.");
  }

  private static void text(Screen screen, String jig, CheckChart each) {
    screen.out().println("Jig " + jig + ", check resistor " + each.resistor() + ", ohm");
    if (each.chart() instanceof Found<ControlChart> found) {
      ControlChart chart = found.value();
      TrendChart.lines(chart, screen.unicode()).forEach(screen.out()::println);
      String limits =
          String.format(
              Locale.ROOT,
              "%d readings; mean %.5g, limits %.5g to %.5g from the first %d.",
              chart.figures().size(),
              chart.mean(),
              chart.low(),
              chart.high(),
              chart.baseline());
      screen.out().println(limits);
    }
    PlainText.wrap(sentence(each), 80).forEach(screen.out()::println);
    screen.out().println();
  }

  private ObjectNode json(Map<String, List<CheckChart>> jigs, ExitCode code) {
    ObjectNode json = JsonAnswer.of("fixture chart", code);
    ArrayNode all = json.putArray("charts");
    jigs.forEach((jig, charts) -> charts.forEach(each -> add(all.addObject(), jig, each)));
    report.ifPresent(file -> json.put("file", file.toString()));
    return json;
  }

  private static void add(ObjectNode node, String jig, CheckChart each) {
    node.put("jig", jig).put("resistor", each.resistor());
    node.put("in_control", each.trouble().isEmpty()).put("sentence", sentence(each));
    if (each.chart() instanceof Found<ControlChart> found) {
      ControlChart chart = found.value();
      node.put("mean", chart.mean()).put("low", chart.low()).put("high", chart.high());
      node.put("baseline", chart.baseline());
      ArrayNode points = node.putArray("points");
      chart
          .figures()
          .forEach(
              point ->
                  points
                      .addObject()
                      .put("taken", point.finished().toString())
                      .put("read_ohm", point.value()));
      chart
          .signals()
          .forEach(
              signal ->
                  ((ObjectNode) points.get(signal.place()))
                      .put("unlike_chance", signal.kind().name().toLowerCase(Locale.ROOT)));
    }
  }
}
