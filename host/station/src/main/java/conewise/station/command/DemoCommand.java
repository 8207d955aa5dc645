package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.card.VerdictSign;
import conewise.station.demo.Demo;
import conewise.station.measuring.StopRequest;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code demo}: boxes of an invented workshop, truth against verdict. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description = "Measures and judges an invented workshop's boxes on a virtual jig.")
final class DemoCommand implements Callable<Integer> {
  private static final int HEADLINE_WIDTH = 74;

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      defaultValue = "conewise-results/demo",
      description = "Where the job cards go (default ${DEFAULT-VALUE}).")
  private Path out;

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    List<Demo.Row> rows;
    try (ProgressLine progress = new ProgressLine(screen);
        StopRequest stop = StopRequest.listen()) {
      rows =
          new Demo(
                  ZonedDateTime.now(ZoneId.systemDefault()),
                  RootCommand.Version.text(),
                  progress,
                  stop)
              .run();
    }
    for (Demo.Row row : rows) {
      Answers.writeReport(page(row), row.card());
    }
    boolean agreed = rows.stream().allMatch(Demo.Row::agrees);
    ExitCode exit = agreed ? ExitCode.PASS : ExitCode.FAIL;
    if (answer.json) {
      screen.out().println(json(rows, exit));
    } else {
      text(screen.out(), rows);
    }
    return exit.number();
  }

  private Path page(Demo.Row row) {
    return out.resolve(row.serial() + ".html");
  }

  private void text(PrintStream to, List<Demo.Row> rows) {
    to.println("Boxes of an invented workshop, on a virtual jig, through the wire protocol.");
    to.println();
    to.println(line("Box", "Truth", "Verdict", "Match"));
    for (Demo.Row row : rows) {
      VerdictSign sign = VerdictSign.of(row.card().verdict().decision());
      to.println(line(row.serial(), row.truth(), sign.shape() + " " + sign.word(), row.match()));
      PlainText.wrap(said(row), HEADLINE_WIDTH).forEach(part -> to.println("      " + part));
    }
    to.println();
    long matched = rows.stream().filter(row -> row.match().equals("yes")).count();
    long missed = rows.stream().filter(row -> !row.agrees()).count();
    to.println(
        rows.size()
            + " boxes: "
            + matched
            + " verdicts match the truth, "
            + (rows.size() - matched - missed)
            + " honestly undecided, "
            + missed
            + " wrong.");
    to.println("The job cards are in " + out.toAbsolutePath().normalize());
  }

  private static String said(Demo.Row row) {
    String action = row.card().verdict().action().map(step -> " Do next: " + step).orElse("");
    return row.card().verdict().headline() + action;
  }

  private static String line(String box, String truth, String verdict, String match) {
    return String.format(Locale.ROOT, "%-6s%-32s%-16s%s", box, truth, verdict, match)
        .stripTrailing();
  }

  private ObjectNode json(List<Demo.Row> rows, ExitCode exit) {
    ObjectNode object = JsonAnswer.of("demo", exit);
    ArrayNode boxes = object.putArray("boxes");
    for (Demo.Row row : rows) {
      boxes
          .addObject()
          .put("serial", row.serial())
          .put("truth", row.truth())
          .put("decision", VerdictSign.of(row.card().verdict().decision()).machineWord())
          .put("headline", row.card().verdict().headline())
          .put("match", row.match())
          .put("report", page(row).toString());
    }
    return object.put("folder", out.toString());
  }
}
