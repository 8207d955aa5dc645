package conewise.station.command;

import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.calibrating.CalibrationFile;
import conewise.station.calibrating.StoredCalibration;
import conewise.station.files.BadFileException;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.Optional;
import picocli.CommandLine.Option;

/** With which calibration a command sweeps. */
final class CalibrationOptions {
  @Option(
      names = "--calibration",
      paramLabel = "FILE",
      description = "What conewise calibrate made of this jig.")
  private Optional<Path> file = Optional.empty();

  /** A calibration that was read, or none. */
  record Chosen(Optional<StoredCalibration> stored) {

    /** How to sweep the jig; a calibration of another jig is refused. */
    SweepSettings settings(JigIdentity jig) throws CommandFailure {
      if (stored.isEmpty()) {
        return SweepSettings.standard();
      }
      Optional<String> foreign = stored.get().foreignTo(jig);
      if (foreign.isPresent()) {
        throw new CommandFailure(ExitCode.BAD_DATA, foreign.get());
      }
      return SweepSettings.standard().with(stored.get().calibration());
    }

    /** What a job card says of it. */
    String describe(ZonedDateTime now) {
      return stored.map(each -> each.describe(now)).orElse("none: nominal scales");
    }
  }

  /** Reads the file, before anything is measured. */
  Chosen read() throws CommandFailure {
    if (file.isEmpty()) {
      return new Chosen(Optional.empty());
    }
    try {
      return new Chosen(Optional.of(CalibrationFile.read(file.get())));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }
}
