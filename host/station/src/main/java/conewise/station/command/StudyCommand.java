package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.diagnosis.Rates;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.measuring.StopRequest;
import conewise.station.study.Study;
import conewise.station.study.StudyAnswer;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code study}: drawn boxes, good and bad, measured and judged; truth against verdict. */
@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    description = {
      "Draws boxes with production tolerances and faults, measures each on the virtual jig, judges"
          + " it, and holds the truth against the verdict."
    })
final class StudyCommand implements Callable<Integer> {
  private static final int MOST_BOXES = 100_000;

  @ParentCommand private RootCommand root;

  @Option(
      names = "--boxes",
      paramLabel = "N",
      defaultValue = "200",
      description = "How many boxes (default ${DEFAULT-VALUE}).")
  private int boxes;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "1",
      description = "Of all that is drawn (default ${DEFAULT-VALUE}).")
  private long seed;

  @Option(
      names = "--case",
      paramLabel = "K",
      description = "Only the box of this number, with all that was weighed.")
  private Integer only;

  @Mixin private AnswerOptions answer;

  @Mixin private RatesOption rates;

  @Override
  public Integer call() throws CommandFailure {
    if (boxes < 1 || boxes > MOST_BOXES) {
      throw new CommandFailure(
          ExitCode.USAGE, "--boxes is " + boxes + "; it must be from 1 to " + MOST_BOXES + ".");
    }
    Rates met = rates.read();
    Screen screen = root.screen();
    StudyAnswer found;
    try (StopRequest stop = StopRequest.listen();
        ProgressLine progress = new ProgressLine(screen)) {
      found =
          only == null
              ? Study.of(boxes, seed, met, screen, progress, stop)
              : Study.only(only, seed, met, screen, stop);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.UNEXPECTED, bad.getMessage(), bad);
    }
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("study", ExitCode.PASS);
      found.addTo(json);
      screen.out().println(json);
    } else {
      found.lines().forEach(screen.out()::println);
    }
    return ExitCode.PASS.number();
  }
}
