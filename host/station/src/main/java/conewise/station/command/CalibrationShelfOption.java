package conewise.station.command;

import conewise.station.calibrating.CalibrationShelf;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Where calibrations are kept. */
final class CalibrationShelfOption {
  @Option(
      names = "--calibrations",
      paramLabel = "DIR",
      description =
          "Where calibrations are kept by jig (default: $CONEWISE_CALIBRATIONS, else this user's"
              + " configuration folder).")
  private Optional<Path> folder = Optional.empty();

  CalibrationShelf shelf() {
    return folder
        .map(CalibrationShelf::new)
        .orElseGet(
            () ->
                CalibrationShelf.usual(
                    System.getenv(),
                    System.getProperty("os.name"),
                    Path.of(System.getProperty("user.home"))));
  }
}
