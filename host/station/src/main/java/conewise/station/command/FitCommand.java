package conewise.station.command;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.driver.BareDriver;
import conewise.station.driver.DriverJson;
import conewise.station.driver.DriverState;
import conewise.station.driver.DriverSweep;
import conewise.station.driver.DriverText;
import conewise.station.driver.KnownOfDriver;
import conewise.station.files.BadFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.function.DoubleFunction;
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
      "Free air alone gives fs, Q and Re; a known mass on the cone gives Mms, Cms, Rms and Bl; a"
          + " closed box gives Vas; both give the cone's area as well."
    },
    footer = {
      "",
      "Take the driver off every amplifier before the clips go on, and keep hands off the cone"
          + " while it is swept. Hang or hold it firmly, clear of every surface. Use a soft, sticky"
          + " mass evenly about the dust cap, about as heavy as the moving parts, nothing of iron:"
          + " the magnet pulls it in. See docs/driver.md."
    })
final class FitCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Parameters(
      paramLabel = "FILE",
      description =
          "The driver in free air: impedance table (.csv), Touchstone (.s1p) or recording (.csv,"
              + " .wav).")
  private Path freeAir;

  @Option(
      names = "--with-mass",
      paramLabel = "GRAMS=FILE",
      description = "The same with a known mass stuck on the cone; may be repeated.")
  private List<String> withMass = List.of();

  @Option(
      names = "--in-box",
      paramLabel = "LITRES=FILE",
      description = "The same on a closed box of known net volume; may be repeated.")
  private List<String> inBox = List.of();

  @Option(
      names = "--area",
      paramLabel = "CM2",
      description = "The cone's area, if known: cone and half the surround.")
  private Optional<Double> areaCm2 = Optional.empty();

  @Option(
      names = "--moving-mass",
      paramLabel = "GRAMS",
      description = "Mms, if known; instead of --with-mass.")
  private Optional<Double> movingMassGram = Optional.empty();

  @Option(
      names = "--coils",
      paramLabel = "N",
      defaultValue = "1",
      description = "How many like voice coils are in series at the clips (default 1).")
  private int coils;

  @Mixin private RecordingOptions recording;

  /** A state and the file of the sweep in it. */
  private record Named(DriverState state, Path file) {}

  @Override
  public Integer call() throws CommandFailure {
    KnownOfDriver known = known();
    List<Named> named = named();
    Screen screen = root.screen();
    Outcome<BareDriver> outcome;
    try (ProgressLine progress = new ProgressLine(screen)) {
      List<DriverSweep> sweeps = new ArrayList<>();
      for (Named each : named) {
        sweeps.add(new DriverSweep(each.file(), each.state(), read(each.file(), progress)));
      }
      progress.show(0.9, "fitting");
      outcome = BareDriver.of(sweeps, known);
      progress.wipe();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    if (outcome instanceof NoResult<BareDriver> none) {
      throw new CommandFailure(ExitCode.NOT_JUDGED, none.because());
    }
    BareDriver driver = ((Found<BareDriver>) outcome).value();
    if (answer.json) {
      screen.out().println(DriverJson.write(driver));
    } else {
      DriverText.write(driver).forEach(screen.out()::println);
    }
    return ExitCode.PASS.number();
  }

  private KnownOfDriver known() throws CommandFailure {
    if (movingMassGram.isPresent() && !withMass.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--moving-mass and --with-mass were both given; give the moving mass where it is known,"
              + " or let a sweep with a mass find it.");
    }
    try {
      return new KnownOfDriver(optional(areaCm2), optional(movingMassGram), coils);
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(ExitCode.USAGE, capital(absurd.getMessage()) + ".", absurd);
    }
  }

  private static OptionalDouble optional(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  private List<Named> named() throws CommandFailure {
    List<Named> named = new ArrayList<>();
    named.add(new Named(new DriverState.FreeAir(), freeAir));
    for (String text : withMass) {
      named.add(named("--with-mass", text, "60=mass.csv", DriverState.WithMass::new));
    }
    for (String text : inBox) {
      named.add(named("--in-box", text, "40=box.csv", DriverState.InBox::new));
    }
    return named;
  }

  private static Named named(
      String option, String text, String example, DoubleFunction<DriverState> state)
      throws CommandFailure {
    AmountOfFile amount = AmountOfFile.parse(option, text, example);
    try {
      return new Named(state.apply(amount.amount()), amount.file());
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(
          ExitCode.USAGE, option + " " + text + ": " + absurd.getMessage() + ".", absurd);
    }
  }

  private ImpedanceCurve read(Path file, ProgressLine progress)
      throws BadFileException, CommandFailure {
    Measurement measurement = recording.read(file, progress);
    Optional<BenchFinding> spoilt =
        measurement.findings().stream().filter(BenchFinding::spoils).findFirst();
    if (spoilt.isPresent()) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          file + ": " + spoilt.get().sentence() + " " + spoilt.get().nextStep());
    }
    if (measurement.curve() instanceof NoResult<ImpedanceCurve> none) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, file + " gives no curve: " + none.because() + "; record it again.");
    }
    return ((Found<ImpedanceCurve>) measurement.curve()).value();
  }

  private static String capital(String text) {
    return text.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + text.substring(1);
  }
}
