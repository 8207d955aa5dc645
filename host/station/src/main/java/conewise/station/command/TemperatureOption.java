package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.util.Optional;
import picocli.CommandLine.Option;

/** The room's temperature. */
final class TemperatureOption {
  private static final double LEAST = -40;
  private static final double MOST = 85;

  @Option(
      names = "--temperature",
      paramLabel = "CELSIUS",
      description = "The room's temperature, -40 to 85; kept as unknown without it.")
  private Optional<Double> celsius = Optional.empty();

  Optional<Double> read() throws CommandFailure {
    if (celsius.isPresent() && !(celsius.get() >= LEAST && celsius.get() <= MOST)) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--temperature is " + celsius.get() + " degrees Celsius; it must be from -40 to 85.");
    }
    return celsius;
  }
}
