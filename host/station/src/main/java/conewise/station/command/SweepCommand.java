package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepState;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.ShopRule;
import conewise.station.card.JobCard;
import conewise.station.card.PlainText;
import conewise.station.chart.Drawing;
import conewise.station.chart.TerminalChart;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.measuring.SweepStateFile;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code sweep}: measures without judging. */
@Command(
    name = "sweep",
    mixinStandardHelpOptions = true,
    description = "Measures the impedance of what is on the jig's clips.",
    footer = "Take the box off every amplifier before it meets the jig.")
final class SweepCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Mixin private SweepOptions sweep;

  @Mixin private CalibrationOptions calibration;

  @Mixin private SweepFiles files;

  @Option(
      names = "--resume",
      paramLabel = "FILE",
      description = "Go on with the interrupted sweep kept in this file.")
  private Optional<Path> resume = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    files.requireFree();
    Optional<SweepState> state = readState();
    CalibrationOptions.Asked asked = calibration.read();
    JigChoice choice = jig.choice();
    try (ProgressLine progress = new ProgressLine(root.screen());
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      CalibrationOptions.Chosen chosen =
          asked.on(client.identity(), ShopRule.none(), ZonedDateTime.now(ZoneId.systemDefault()));
      SweepRun run =
          new SweepRun(state.map(SweepState::kind).orElse(sweep.kind()), chosen.settings(), state);
      SweepOutcome outcome = run.run(client, progress, stop);
      progress.wipe();
      return outcome instanceof SweepResult result
          ? finished(result, client.linkName(), chosen)
          : interrupted((Interrupted) outcome);
    }
  }

  private Optional<SweepState> readState() throws CommandFailure {
    if (resume.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(SweepStateFile.read(resume.get()));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private int finished(SweepResult result, String link, CalibrationOptions.Chosen chosen)
      throws CommandFailure {
    List<Path> written = files.write(result);
    boolean spoilt =
        result.measurement().findings().stream().anyMatch(BenchFinding::spoils)
            || result.measurement().curve() instanceof Outcome.NoResult<ImpedanceCurve>;
    ExitCode exit = spoilt ? ExitCode.NOT_JUDGED : ExitCode.PASS;
    ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
    List<JobCard.Fact> facts =
        SweepFacts.of(result, link, chosen.words(), now, RootCommand.Version.text());
    if (answer.json) {
      root.screen().out().println(json(result, exit, facts, written));
    } else {
      text(result, facts, written);
    }
    return exit.number();
  }

  private static ObjectNode json(
      SweepResult result, ExitCode exit, List<JobCard.Fact> facts, List<Path> written) {
    ObjectNode object = JsonAnswer.of("sweep", exit).put("complete", true);
    JsonAnswer.findings(object, result.measurement().findings());
    JsonAnswer.measured(object, facts);
    ArrayNode names = object.putArray("files");
    written.forEach(path -> names.add(path.toString()));
    JsonAnswer.curve(object, result.measurement().curve());
    return object;
  }

  private void text(SweepResult result, List<JobCard.Fact> facts, List<Path> written) {
    Screen screen = root.screen();
    PrintStream out = screen.out();
    Outcome<ImpedanceCurve> curve = result.measurement().curve();
    if (curve instanceof Outcome.Found<ImpedanceCurve> found
        && Drawing.of(found.value(), Judging.marks(curve))
            instanceof Outcome.Found<Drawing> drawing) {
      TerminalChart.draw(drawing.value(), screen.unicode()).forEach(out::println);
    } else if (curve instanceof Outcome.NoResult<ImpedanceCurve> none) {
      PlainText.wrap("No curve: " + none.because(), 80).forEach(out::println);
    }
    out.println();
    facts.forEach(fact -> out.println(fact.label() + ": " + PlainText.tame(fact.text())));
    for (BenchFinding finding : result.measurement().findings()) {
      String weight = finding.spoils() ? "Spoils the measurement: " : "Note: ";
      PlainText.wrap(weight + finding.sentence() + " " + finding.nextStep(), 80)
          .forEach(out::println);
    }
    written.forEach(path -> out.println("Written: " + path));
  }

  /** What was measured is kept, and how to go on is said. */
  private int interrupted(Interrupted interrupted) throws CommandFailure {
    Path kept = resume.orElse(Path.of("conewise-sweep-" + System.currentTimeMillis() + ".json"));
    try {
      SweepStateFile.write(kept, interrupted.state());
    } catch (IOException e) {
      throw Answers.cannotWrite(kept, e);
    }
    String sentence =
        interrupted.because()
            + " "
            + interrupted.nextStep()
            + " "
            + interrupted.state().readings().size()
            + " readings are kept; go on with: conewise sweep --resume "
            + kept;
    Screen screen = root.screen();
    screen.err().println("conewise: " + sentence);
    if (answer.json) {
      screen
          .out()
          .println(
              JsonAnswer.failure("sweep", ExitCode.NOT_JUDGED, sentence)
                  .put("complete", false)
                  .put("resume", kept.toString()));
    }
    return ExitCode.NOT_JUDGED.number();
  }
}
