package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.BoxPrediction;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.prediction.PredictionAnswer;
import conewise.station.prediction.PredictionJson;
import conewise.station.prediction.PredictionText;
import conewise.station.report.PredictionPage;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code predict}: what a plan's box and its faults will show, before it is built. */
@Command(
    name = "predict",
    mixinStandardHelpOptions = true,
    description = {
      "Predicts from a plan alone what a good box and each fault will show at the terminals:"
          + " the curve, the DC resistance of each slip of the wiring, and which faults can be told"
          + " from a good box surely, perhaps or never.",
      "The report draws the curves and the wiring, from terminal to terminal."
    })
final class PredictCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private RatesOption rates;

  @Parameters(paramLabel = "PLAN", description = "The box (.yaml or .json).")
  private Path plan;

  @Option(
      names = "--boxes",
      paramLabel = "N",
      defaultValue = "12",
      description =
          "Boxes to draw for each set of faults, "
              + BoxPrediction.FEWEST_BOXES
              + " to "
              + BoxPrediction.MOST_BOXES
              + ". Default: ${DEFAULT-VALUE}.")
  private int boxes;

  @Option(
      names = "--seed",
      paramLabel = "S",
      defaultValue = "1",
      description = "Seed of the drawing. Default: ${DEFAULT-VALUE}.")
  private long seed;

  @Option(
      names = "--report",
      paramLabel = "FILE",
      description = "Write a page with curves, wiring and tables here (.html).")
  private Optional<Path> report = Optional.empty();

  @Override
  public Integer call() throws CommandFailure {
    if (boxes < BoxPrediction.FEWEST_BOXES || boxes > BoxPrediction.MOST_BOXES) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--boxes is "
              + boxes
              + "; it must be "
              + BoxPrediction.FEWEST_BOXES
              + " to "
              + BoxPrediction.MOST_BOXES
              + ".");
    }
    if (report.isPresent() && absolute(report.get()).equals(absolute(plan))) {
      throw new CommandFailure(
          ExitCode.USAGE,
          report.get() + " is named twice, as the plan and as the report; choose another name.");
    }
    PredictionAnswer predicted = predict();
    if (report.isPresent()) {
      write(report.get(), PredictionPage.write(predicted));
    }
    show(predicted);
    return ExitCode.PASS.number();
  }

  private static Path absolute(Path path) {
    return path.toAbsolutePath().normalize();
  }

  private PredictionAnswer predict() throws CommandFailure {
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      PlannedBox box = PlannedBoxFile.read(plan);
      return PredictionAnswer.of(
          box,
          rates.read(),
          boxes,
          seed,
          part -> progress.show(part, "drawing boxes with each fault"));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private static void write(Path file, String page) throws CommandFailure {
    try {
      NewFile.writeText(file, Existing.REPLACE, page);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private void show(PredictionAnswer predicted) {
    Screen screen = root.screen();
    if (answer.json) {
      ObjectNode json = PredictionJson.write(predicted);
      report.ifPresent(file -> json.put("report", file.toString()));
      screen.out().println(json);
      return;
    }
    PredictionText.write(predicted).forEach(screen.out()::println);
    report.ifPresent(
        file -> {
          screen.out().println();
          screen.out().println("The report is in " + file);
        });
  }
}
