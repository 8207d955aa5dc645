package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextTable;
import conewise.station.card.VerdictSign;
import conewise.station.records.RecordsException;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code records list}. */
@Command(
    name = "list",
    mixinStandardHelpOptions = true,
    description = "The kept runs, newest first.")
final class RecordsListCommand implements Callable<Integer> {
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT).withZone(ZoneId.systemDefault());

  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Option(
      names = "--most",
      paramLabel = "N",
      defaultValue = "50",
      description = "At most so many (default ${DEFAULT-VALUE}).")
  private int most;

  @Override
  public Integer call() throws CommandFailure {
    List<RunLine> runs;
    try (RecordStore store = place.open()) {
      runs = store.list(filter.filter(most));
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    Screen screen = records.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records list", ExitCode.PASS);
      ArrayNode list = json.putArray("runs");
      runs.forEach(run -> write(list.addObject(), run));
      screen.out().println(json);
    } else {
      table(runs).lines().forEach(screen.out()::println);
      screen.out().println(runs.size() + (runs.size() == 1 ? " run" : " runs"));
    }
    return ExitCode.PASS.number();
  }

  static TextTable table(List<RunLine> runs) {
    TextTable table = new TextTable("Run", "Finished", "Serial", "Attempt", "Outcome", "Job");
    for (RunLine run : runs) {
      table.row(
          Long.toString(run.id()),
          minute(run.finished()),
          run.serial(),
          Integer.toString(run.attempt()),
          VerdictSign.of(run.decision()).word()
              + run.overruled().map(to -> ", overruled").orElse(""),
          run.job());
    }
    return table;
  }

  static String minute(Instant instant) {
    return MINUTE.format(instant);
  }

  static void write(ObjectNode to, RunLine run) {
    to.put("run", run.id()).put("job", run.job()).put("serial", run.serial());
    to.put("attempt", run.attempt()).put("limits_version", run.limitsVersion());
    to.put("finished", run.finished().toString());
    to.put("decision", VerdictSign.of(run.decision()).machineWord());
    to.put("headline", run.headline());
    run.fault().ifPresent(fault -> to.put("fault", fault));
    run.operator().ifPresent(name -> to.put("operator", name));
    to.put("station", run.station());
    run.overruled()
        .ifPresent(other -> to.put("overruled_to", VerdictSign.of(other.decision()).machineWord()));
  }
}
