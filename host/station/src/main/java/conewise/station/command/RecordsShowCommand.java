package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextAnswer;
import conewise.station.answer.TextTable;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.files.BadFileException;
import conewise.station.judging.KeptJudging;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code records show}. */
@Command(
    name = "show",
    mixinStandardHelpOptions = true,
    description = "One run as its bench showed it, what came to it since, and all attempts.")
final class RecordsShowCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Parameters(paramLabel = "RUN", description = "The run's number, as records list has it.")
  private long id;

  @Override
  public Integer call() throws CommandFailure {
    KeptRun kept;
    List<RunLine> attempts;
    try (RecordStore store = place.open()) {
      kept = KeptRuns.run(store, id);
      attempts = store.list(RunFilter.ofBox(kept.run().job(), kept.run().serial()));
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    show(kept, attempts);
    return ExitCode.PASS.number();
  }

  private void show(KeptRun kept, List<RunLine> attempts) throws CommandFailure {
    Screen screen = records.screen();
    JobCard card;
    try {
      card = KeptJudging.card(kept);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records show", ExitCode.PASS);
      KeptRunJson.write(json.putObject("kept"), kept, card);
      ArrayNode list = json.putArray("attempts");
      attempts.forEach(run -> RecordsListCommand.write(list.addObject(), run));
      screen.out().println(json);
      return;
    }
    TextAnswer.write(card, screen).forEach(screen.out()::println);
    screen.out().println();
    facts(kept).forEach(screen.out()::println);
    screen.out().println();
    screen.out().println("All attempts of this box in this job:");
    RecordsListCommand.table(attempts).lines().forEach(screen.out()::println);
  }

  private static List<String> facts(KeptRun kept) {
    TextTable table = new TextTable("Kept as", kept.words());
    table.row("Job", kept.run().job() + ", limits version " + kept.limitsVersion());
    table.row("Plan", "SHA-256 " + kept.run().plan().hash().substring(0, 16));
    kept.run().operator().ifPresent(name -> table.row("Operator", name));
    table.row("Station", kept.run().station());
    table.row("Finished", kept.run().finished().toString());
    kept.run().sightings().forEach(seen -> table.row("Seen", seen.words()));
    kept.judgements().stream()
        .skip(1)
        .forEach(
            again ->
                table.row(
                    "Judged again",
                    VerdictSign.of(again.verdict().decision()).word()
                        + " under limits version "
                        + again.limitsVersion()
                        + ": "
                        + again.verdict().headline()));
    kept.overrulings()
        .forEach(
            each ->
                table.row(
                    "Overruled",
                    VerdictSign.of(each.decision()).word()
                        + " by "
                        + each.by()
                        + ": "
                        + each.reason()));
    return table.lines();
  }
}
