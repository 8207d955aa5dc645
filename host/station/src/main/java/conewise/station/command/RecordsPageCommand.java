package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.ControlChart;
import conewise.station.records.trend.SerialRange;
import conewise.station.report.RecordsPage;
import conewise.station.report.RecordsPageContent;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code records page}. */
@Command(
    name = "page",
    mixinStandardHelpOptions = true,
    description = "One page for the owner: yield, faults, trends, boxes that came more than once.")
final class RecordsPageCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "Where to; a page that is there is replaced.")
  private Path out;

  @Option(
      names = "--built",
      paramLabel = "SERIALS",
      description =
          "Serials of the job that were built, single or as C-0001..C-0120: the page tells which"
              + " never had a run. As often as wanted.")
  private List<String> built = List.of();

  @Override
  public Integer call() throws CommandFailure {
    List<String> serials = serials();
    RecordsPage.Content content;
    try (RecordStore store = place.open()) {
      RunFilter wanted = filter.filter(RunFilter.MOST);
      content = RecordsPageContent.read(store, wanted, ZoneId.systemDefault(), serials);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    try {
      NewFile.writeText(out, Existing.REPLACE, RecordsPage.write(content));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records page", ExitCode.PASS);
      records.screen().out().println(json.put("file", out.toString()));
    } else {
      records.screen().out().println("The page is in " + out);
      for (Map.Entry<String, Outcome<ControlChart>> each : content.trends().entrySet()) {
        if (each.getValue() instanceof Outcome.NoResult<ControlChart> none) {
          records.screen().out().println("No trend of " + each.getKey() + ": " + none.because());
        }
      }
    }
    return ExitCode.PASS.number();
  }

  private List<String> serials() throws CommandFailure {
    if (!built.isEmpty() && filter.job().isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, "--built names serials of a job; say of which with --job.");
    }
    try {
      return SerialRange.all(built);
    } catch (IllegalArgumentException bad) {
      throw new CommandFailure(ExitCode.USAGE, RunFilterOptions.sentence(bad), bad);
    }
  }
}
