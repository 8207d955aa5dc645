package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.answer.TextTable;
import conewise.station.card.VerdictSign;
import conewise.station.files.BadFileException;
import conewise.station.judging.KeptJudging;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.KeptRun;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorCompletionService;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code records judge-again}: what was kept stays, the new judgement stands beside it. */
@Command(
    name = "judge-again",
    mixinStandardHelpOptions = true,
    description = "Judges kept runs by another plan; adds the judgements, changes nothing.")
final class RecordsJudgeAgainCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Mixin private RatesOption rates;

  @Option(
      names = "--plan",
      required = true,
      paramLabel = "PLAN",
      description = "The plan with the new limits.")
  private Path plan;

  /** A run and what is said of it now. */
  private record Again(RunLine run, Verdict verdict) {}

  @Override
  public Integer call() throws CommandFailure {
    PlannedBox box;
    PlanText text;
    try {
      box = PlannedBoxFile.read(plan);
      text = PlanText.of(plan.toString(), PlannedBoxFile.bytes(plan));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    } catch (IOException gone) {
      throw new CommandFailure(ExitCode.BAD_DATA, plan + " cannot be read.", gone);
    }
    KeptJudging judging = new KeptJudging(rates.read());
    List<Again> all = new ArrayList<>();
    try (RecordStore store = place.open();
        ProgressLine progress = new ProgressLine(records.screen())) {
      List<RunLine> runs = store.list(filter.filter(RunFilter.MOST));
      judgeAll(store, runs, judging, box, text, progress, all);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    show(all);
    return ExitCode.PASS.number();
  }

  /** One thread a core judges; the one that called writes. */
  private static void judgeAll(
      RecordStore store,
      List<RunLine> runs,
      KeptJudging judging,
      PlannedBox box,
      PlanText text,
      ProgressLine progress,
      List<Again> all)
      throws CommandFailure, RecordsException {
    int cores = Runtime.getRuntime().availableProcessors();
    ExecutorService pool = Executors.newFixedThreadPool(cores);
    ExecutorCompletionService<Again> judged = new ExecutorCompletionService<>(pool);
    try {
      int handedOut = 0;
      for (int done = 0; done < runs.size(); done++) {
        while (handedOut < runs.size() && handedOut < done + 2 * cores) {
          RunLine run = runs.get(handedOut++);
          KeptRun kept = KeptRuns.run(store, run.id());
          judged.submit(() -> new Again(run, judging.again(kept, box)));
        }
        Again again = judged.take().get();
        store.addJudgement(
            again.run().id(), text, Instant.now(), RootCommand.Version.text(), again.verdict());
        all.add(again);
        progress.show(done / (double) runs.size(), done + 1 + " of " + runs.size() + " judged");
      }
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new CommandFailure(
          ExitCode.UNEXPECTED,
          "Stopped; " + all.size() + " runs were judged and are kept.",
          stopped);
    } catch (ExecutionException failed) {
      throw new CommandFailure(
          ExitCode.BAD_DATA, String.valueOf(failed.getCause().getMessage()), failed);
    } finally {
      pool.shutdownNow();
    }
  }

  private void show(List<Again> all) {
    all.sort((one, other) -> Long.compare(other.run().id(), one.run().id()));
    List<Again> changed =
        all.stream().filter(each -> each.verdict().decision() != each.run().decision()).toList();
    Screen screen = records.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records judge-again", ExitCode.PASS);
      json.put("judged", all.size()).put("changed", changed.size());
      ArrayNode list = json.putArray("changes");
      for (Again each : changed) {
        list.addObject()
            .put("run", each.run().id())
            .put("serial", each.run().serial())
            .put("was", VerdictSign.of(each.run().decision()).machineWord())
            .put("is", VerdictSign.of(each.verdict().decision()).machineWord())
            .put("headline", each.verdict().headline());
      }
      screen.out().println(json);
      return;
    }
    screen.out().println(all.size() + " judged again, " + changed.size() + " come out otherwise.");
    screen.out().println("What the bench said stays; conewise records show has both.");
    if (!changed.isEmpty()) {
      TextTable table = new TextTable("Run", "Serial", "Was", "Is", "Why");
      for (Again each : changed) {
        Decision is = each.verdict().decision();
        table.row(
            Long.toString(each.run().id()),
            each.run().serial(),
            VerdictSign.of(each.run().decision()).word(),
            VerdictSign.of(is).word(),
            each.verdict().headline());
      }
      screen.out().println();
      table.lines().forEach(screen.out()::println);
    }
  }
}
