package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.jig.client.JigClient;
import conewise.jig.conformance.Conformance;
import conewise.jig.conformance.Conformance.Outcome;
import conewise.jig.conformance.Conformance.Result;
import conewise.protocol.JigIdentity;
import conewise.protocol.link.LinkLostException;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.card.PlainText;
import conewise.station.measuring.JigChoice;
import java.io.PrintStream;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code conform}: holds a jig to the protocol's specification. */
@Command(
    name = "conform",
    mixinStandardHelpOptions = true,
    description = "Holds a jig to the protocol, dialogue by dialogue, for makers of firmware.",
    footer = {
      "The jig must start afresh when its port is opened, as most boards do.",
      "Leave its clips open: no box, no amplifier."
    })
final class ConformCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Option(
      names = "--with-store",
      description = "Also what is kept without power; it is cleared at the end.")
  private boolean withStore;

  @Override
  public Integer call() throws CommandFailure {
    JigChoice choice = jig.choice();
    Conformance.Fresh fresh =
        choice
            .fresh()
            .orElseThrow(
                () ->
                    new CommandFailure(
                        ExitCode.USAGE, "Say which jig: --port, --tcp or --virtual."));
    List<Result> results;
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      JigIdentity identity;
      try (JigClient client = choice.connect(progress)) {
        identity = client.identity();
      }
      results = hold(new Conformance(fresh, withStore), identity, progress);
      progress.wipe();
    }
    boolean broken = results.stream().anyMatch(each -> each.outcome() == Outcome.BROKEN);
    ExitCode exit = broken ? ExitCode.FAIL : ExitCode.PASS;
    if (answer.json) {
      root.screen().out().println(json(results, exit));
    } else {
      text(results, root.screen().out());
    }
    return exit.number();
  }

  private static List<Result> hold(
      Conformance conformance, JigIdentity identity, ProgressLine progress) throws CommandFailure {
    List<Result> soFar = new ArrayList<>();
    try {
      return conformance.run(
          identity,
          result -> {
            soFar.add(result);
            progress.show(
                (double) soFar.size() / Conformance.dialogues(), "holding " + result.dialogue());
          });
    } catch (LinkLostException lost) {
      throw new CommandFailure(ExitCode.NO_JIG, lost.getMessage(), lost);
    }
  }

  private static void text(List<Result> results, PrintStream out) {
    for (Result result : results) {
      if (result.outcome() == Outcome.BROKEN) {
        out.println("broken: " + result.dialogue());
        PlainText.wrap("  " + result.complaint(), 100).forEach(out::println);
        out.println("  protocol/spec.md, section " + result.section());
        result.exchange().forEach(line -> out.println("    " + PlainText.tame(line)));
      }
    }
    for (Result result : results) {
      if (result.outcome() == Outcome.PASSED_OVER) {
        out.println("passed over: " + result.dialogue());
      }
    }
    out.printf(
        "%d held, %d broken, %d passed over%n",
        count(results, Outcome.HELD),
        count(results, Outcome.BROKEN),
        count(results, Outcome.PASSED_OVER));
  }

  private static long count(List<Result> results, Outcome outcome) {
    return results.stream().filter(each -> each.outcome() == outcome).count();
  }

  private static ObjectNode json(List<Result> results, ExitCode exit) {
    ObjectNode object = JsonAnswer.of("conform", exit);
    ArrayNode dialogues = object.putArray("dialogues");
    for (Result result : results) {
      ObjectNode each =
          dialogues
              .addObject()
              .put("dialogue", result.dialogue())
              .put(
                  "outcome",
                  switch (result.outcome()) {
                    case HELD -> "held";
                    case BROKEN -> "broken";
                    case PASSED_OVER -> "passed-over";
                  })
              .put("section", result.section());
      if (result.outcome() == Outcome.BROKEN) {
        each.put("complaint", result.complaint());
        ArrayNode exchange = each.putArray("exchange");
        result.exchange().forEach(exchange::add);
      }
    }
    return object;
  }
}
