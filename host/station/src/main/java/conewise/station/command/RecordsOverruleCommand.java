package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.judgement.Decision;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.card.VerdictSign;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordStore;
import java.time.Instant;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code records overrule}: a person's decision beside a verdict, which stays as it is. */
@Command(
    name = "overrule",
    mixinStandardHelpOptions = true,
    description = {
      "Adds beside a verdict that a person decides otherwise, with name and reason.",
      "The verdict itself stays, and so does this: nothing takes it away again."
    })
final class RecordsOverruleCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Parameters(paramLabel = "RUN", description = "The run's number, as records list has it.")
  private long id;

  @Option(
      names = "--serial",
      required = true,
      paramLabel = "S",
      description = "The box's own number; where the run is of another box, nothing is added.")
  private String serial;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "pass|fail",
      description = "What the person decides.")
  private String to;

  @Option(names = "--by", required = true, paramLabel = "NAME", description = "Who decides.")
  private String by;

  @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why.")
  private String reason;

  @Override
  public Integer call() throws CommandFailure {
    Decision decision = decision();
    KeptRun kept;
    Overruling overruling;
    try (RecordStore store = place.open()) {
      kept = KeptRuns.run(store, id);
      overruling = Overruling.of(kept, serial, Instant.now(), by, decision, reason);
      store.overrule(kept, overruling);
    } catch (IllegalArgumentException refused) {
      throw new CommandFailure(ExitCode.USAGE, RunFilterOptions.sentence(refused), refused);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    show(kept, overruling);
    return ExitCode.PASS.number();
  }

  private Decision decision() throws CommandFailure {
    return switch (to) {
      case "pass" -> Decision.PASS;
      case "fail" -> Decision.FAIL;
      default ->
          throw new CommandFailure(
              ExitCode.USAGE, "--to is \"" + to + "\"; it must be pass or fail.");
    };
  }

  private void show(KeptRun kept, Overruling overruling) {
    Screen screen = records.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records overrule", ExitCode.PASS);
      json.put("run", kept.id()).put("serial", kept.run().serial());
      json.put("judged", VerdictSign.of(kept.run().verdict().decision()).machineWord());
      json.put("overruled_to", to).put("by", overruling.by()).put("reason", overruling.reason());
      screen.out().println(json);
      return;
    }
    String sentence =
        kept.words()
            + ": "
            + VerdictSign.of(kept.run().verdict().decision()).word()
            + ", to "
            + VerdictSign.of(overruling.decision()).word()
            + ". "
            + overruling.words();
    PlainText.wrap(sentence, 80).forEach(screen.out()::println);
  }
}
