package conewise.station.command;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.DriverFigures;
import conewise.analysis.parameter.DriverMeasurement;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.DriverAnswer;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.files.MeasurementFile;
import conewise.station.judging.RecordingReader;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code fit}: the parameters of a bare driver from its curves. */
@Command(
    name = "fit",
    mixinStandardHelpOptions = true,
    description = {
      "Fits the parameters of a bare driver to its curves, all sweeps together.",
      "Hold the driver so that nothing is near its cone or vent. Stick a mass on so that it cannot"
          + " fly off, near the middle, about as heavy as the cone; keep fingers off a moving cone."
    },
    footer = "Take the driver off every amplifier before it meets the jig.")
final class FitCommand implements Callable<Integer> {
  private static final double GRAMS = 1e-3;
  private static final double LITRES = 1e-3;
  private static final double SQUARE_CENTIMETRES = 1e-4;

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Parameters(
      paramLabel = "FILE",
      description =
          "The curve in free air: impedance table (.csv), Touchstone (.s1p) or recording.")
  private Path freeAir;

  @Option(
      names = "--with-mass",
      paramLabel = "GRAMS=FILE",
      description = "A curve with that mass on the cone; may be given several times.")
  private Map<Double, Path> withMass = new LinkedHashMap<>();

  @Option(
      names = "--in-box",
      paramLabel = "LITRES=FILE",
      description = "A curve in a closed box of that net volume; may be given several times.")
  private Map<Double, Path> inBox = new LinkedHashMap<>();

  @Option(
      names = "--area",
      paramLabel = "CM2",
      description = "Area of the cone: to the middle of its surround (common practice).")
  private Optional<Double> area = Optional.empty();

  @Option(
      names = "--moving-mass",
      paramLabel = "GRAMS",
      description = "The moving mass where it is known, air included.")
  private Optional<Double> movingMass = Optional.empty();

  @Option(
      names = "--coils",
      paramLabel = "N",
      defaultValue = "1",
      description = "How many like coils were in series (default ${DEFAULT-VALUE}).")
  private int coils;

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    DriverFigures figures;
    double scale;
    try (ProgressLine progress = new ProgressLine(screen)) {
      requireSizes();
      ImpedanceCurve first = curve(freeAir, progress);
      scale = first.scaleUncertainty();
      DriverMeasurement measurement = DriverMeasurement.freeAir(first, coils);
      for (Map.Entry<Double, Path> each : withMass.entrySet()) {
        measurement =
            measurement.withAddedMass(each.getKey() * GRAMS, curve(each.getValue(), progress));
      }
      for (Map.Entry<Double, Path> each : inBox.entrySet()) {
        measurement = measurement.withBox(each.getKey() * LITRES, curve(each.getValue(), progress));
      }
      if (area.isPresent()) {
        measurement = measurement.withArea(area.get() * SQUARE_CENTIMETRES);
      }
      if (movingMass.isPresent()) {
        measurement = measurement.withMovingMass(movingMass.get() * GRAMS);
      }
      progress.show(0.9, "fitting");
      figures = fitted(measurement);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    DriverAnswer shown = new DriverAnswer(figures, 1 + withMass.size() + inBox.size(), scale);
    if (answer.json) {
      screen.out().println(shown.json());
    } else {
      shown.text().forEach(screen.out()::println);
    }
    return ExitCode.PASS.number();
  }

  private static DriverFigures fitted(DriverMeasurement measurement) throws CommandFailure {
    if (measurement.figures() instanceof Found<DriverFigures> found) {
      return found.value();
    }
    throw new CommandFailure(
        ExitCode.NOT_JUDGED,
        "No parameters, because "
            + ((NoResult<DriverFigures>) measurement.figures()).because()
            + ". Check that each file is the sweep that it is given as, and sweep again.");
  }

  private static ImpedanceCurve curve(Path file, ProgressLine progress)
      throws BadFileException, CommandFailure {
    var options =
        new MeasurementFile.Options(
            Optional.empty(), fraction -> progress.show(fraction, "reading " + file.getFileName()));
    MeasurementFile.Content content = MeasurementFile.read(file, options);
    if (content instanceof MeasurementFile.Content.Curve curve) {
      return curve.curve();
    }
    var capture = ((MeasurementFile.Content.Recording) content).capture();
    if (RecordingReader.read(capture).curve() instanceof Found<ImpedanceCurve> found) {
      return found.value();
    }
    throw new CommandFailure(
        ExitCode.BAD_DATA, file + " gives no impedance; try conewise judge on it, which says why.");
  }

  private void requireSizes() throws CommandFailure {
    for (double grams : withMass.keySet()) {
      requireWithin("--with-mass", grams, 0.1, 5000, "g");
    }
    for (double litres : inBox.keySet()) {
      requireWithin("--in-box", litres, 0.1, 5000, "litres");
    }
    if (area.isPresent()) {
      requireWithin("--area", area.get(), 1, 10_000, "cm2");
    }
    if (movingMass.isPresent()) {
      requireWithin("--moving-mass", movingMass.get(), 0.1, 5000, "g");
    }
    requireWithin("--coils", coils, 1, 4, "coils");
  }

  private static void requireWithin(
      String option, double value, double low, double high, String unit) throws CommandFailure {
    if (!(value >= low && value <= high)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          String.format(
              Locale.ROOT,
              "%s is %s; it must lie from %s to %s %s.",
              option,
              plain(value),
              plain(low),
              plain(high),
              unit));
    }
  }

  private static String plain(double value) {
    return new java.math.BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
  }
}
