package conewise.station.command;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.files.BadFileException;
import java.nio.file.Path;
import java.util.Optional;

/** The curve of a file, for commands that can do nothing without a sound one. */
final class MeasuredCurves {
  private MeasuredCurves() {}

  /** Reads it; what spoils it, or leaves none, is a failure that names the file. */
  static ImpedanceCurve read(Path from, RecordingOptions recording, ProgressLine progress)
      throws BadFileException, CommandFailure {
    Measurement measurement = recording.read(from, progress);
    Optional<BenchFinding> spoilt =
        measurement.findings().stream().filter(BenchFinding::spoils).findFirst();
    if (spoilt.isPresent()) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          from + ": " + spoilt.get().sentence() + " " + spoilt.get().nextStep());
    }
    if (measurement.curve() instanceof NoResult<ImpedanceCurve> none) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, from + " gives no curve: " + none.because() + "; record it again.");
    }
    return ((Found<ImpedanceCurve>) measurement.curve()).value();
  }
}
