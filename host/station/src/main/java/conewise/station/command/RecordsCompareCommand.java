package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextTable;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.comparison.CurveRatio;
import conewise.station.records.store.RecordStore;
import conewise.station.report.ComparisonPage;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code records compare}. */
@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    description = "The curve of one run over that of another: level in dB, and phase.")
final class RecordsCompareCommand implements Callable<Integer> {
  /** So many rows tell of the curve on a screen. */
  private static final int ROWS = 16;

  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Parameters(index = "0", paramLabel = "RUN", description = "The run's number.")
  private long first;

  @Parameters(index = "1", paramLabel = "OTHER", description = "The number of the other.")
  private long second;

  @Option(names = "--report", paramLabel = "FILE", description = "Write a page with both here.")
  private Optional<Path> report = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    KeptRun one;
    KeptRun other;
    try (RecordStore store = place.open()) {
      one = KeptRuns.run(store, first);
      other = KeptRuns.run(store, second);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    Outcome<CurveRatio> outcome = CurveRatio.of(KeptRuns.curve(one), KeptRuns.curve(other));
    if (outcome instanceof Outcome.NoResult<CurveRatio> none) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "Runs " + first + " and " + second + " cannot be compared: " + none.because() + ".");
    }
    CurveRatio ratio = ((Outcome.Found<CurveRatio>) outcome).value();
    if (report.isPresent()) {
      page(one, other, ratio);
    }
    show(one, other, ratio);
    return ExitCode.PASS.number();
  }

  private void page(KeptRun one, KeptRun other, CurveRatio ratio) throws CommandFailure {
    String html =
        ComparisonPage.write(
            one.words(), other.words(), KeptRuns.curve(one), KeptRuns.curve(other), ratio);
    try {
      NewFile.writeText(report.orElseThrow(), Existing.REPLACE, html);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private void show(KeptRun one, KeptRun other, CurveRatio ratio) {
    Screen screen = records.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records compare", ExitCode.PASS);
      json.put("first", one.id()).put("second", other.id());
      ArrayNode points = json.putArray("points");
      for (CurveRatio.Point point : ratio.points()) {
        points
            .addObject()
            .put("frequency_hz", point.frequencyHz())
            .put("level_db", point.decibel())
            .put("phase_degrees", point.degrees());
      }
      report.ifPresent(file -> json.put("report", file.toString()));
      screen.out().println(json);
      return;
    }
    screen.out().println(one.words() + " over " + other.words());
    ratio.sentences().forEach(screen.out()::println);
    screen.out().println();
    rows(ratio).lines().forEach(screen.out()::println);
    report.ifPresent(file -> screen.out().println("\nThe report is in " + file));
  }

  private static TextTable rows(CurveRatio ratio) {
    TextTable table = new TextTable("Hz", "level, dB", "phase, degrees");
    int count = ratio.points().size();
    int step = Math.max(1, (int) Math.ceil(count / (double) ROWS));
    for (int i = 0; i < count; i += step) {
      CurveRatio.Point point = ratio.points().get(i);
      table.row(
          String.format(Locale.ROOT, "%.1f", point.frequencyHz()),
          String.format(Locale.ROOT, "%+.2f", point.decibel()),
          String.format(Locale.ROOT, "%+.1f", point.degrees()));
    }
    return table;
  }
}
