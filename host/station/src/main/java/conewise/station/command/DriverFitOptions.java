package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.driver.DriverState;
import conewise.station.driver.KnownOfDriver;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import picocli.CommandLine.Option;

/** What is known of a bare driver, and its sweeps beside free air. */
final class DriverFitOptions {
  @Option(
      names = "--with-mass",
      paramLabel = "GRAMS=FILE",
      description = "A bare driver with a known mass stuck on the cone; may be repeated.")
  private List<String> withMass = List.of();

  @Option(
      names = "--in-box",
      paramLabel = "LITRES=FILE",
      description = "A bare driver on a closed box of known net volume; may be repeated.")
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
      description = "How many like voice coils are in series at the clips (1 if not given).")
  private Optional<Integer> coils = Optional.empty();

  /** A state and the file of the sweep in it. */
  record Named(DriverState state, Path file) {}

  /** True where any of them was given. */
  boolean given() {
    return !withMass.isEmpty()
        || !inBox.isEmpty()
        || areaCm2.isPresent()
        || movingMassGram.isPresent()
        || coils.isPresent();
  }

  KnownOfDriver known() throws CommandFailure {
    if (movingMassGram.isPresent() && !withMass.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--moving-mass and --with-mass were both given; give the moving mass where it is known,"
              + " or let a sweep with a mass find it.");
    }
    try {
      return new KnownOfDriver(optional(areaCm2), optional(movingMassGram), coils.orElse(1));
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(ExitCode.USAGE, capital(absurd.getMessage()) + ".", absurd);
    }
  }

  /** All sweeps, free air first. */
  List<Named> named(Path freeAir) throws CommandFailure {
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

  private static OptionalDouble optional(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  static String capital(String text) {
    return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
  }
}
