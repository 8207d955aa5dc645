package conewise.station.command;

import conewise.analysis.judgement.Measurement;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.files.BadFileException;
import conewise.station.files.WavScales;
import conewise.station.judging.MeasuredFile;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Option;

/** What a measurement's file cannot say of itself. */
final class RecordingOptions {
  @Option(
      names = "--voltage-full-scale",
      paramLabel = "V",
      description = "WAV: the voltage that full scale stands for.")
  private Optional<Double> voltageFullScale = Optional.empty();

  @Option(
      names = "--current-full-scale",
      paramLabel = "A",
      description = "WAV: the current that full scale stands for.")
  private Optional<Double> currentFullScale = Optional.empty();

  @Option(
      names = "--current-delay",
      paramLabel = "SECONDS",
      defaultValue = "0",
      description = "WAV: how much later the current was sampled (default ${DEFAULT-VALUE}).")
  private double currentDelaySeconds;

  @Option(
      names = "--voltage-channel",
      paramLabel = "SIDE",
      defaultValue = "left",
      description = "WAV: the channel that holds the voltage, left or right.")
  private WavScales.Side voltageChannel;

  /** Reads a measurement of any kind. */
  Measurement read(Path file, ProgressLine progress) throws BadFileException, CommandFailure {
    return MeasuredFile.read(
        file, scales(), fraction -> progress.show(fraction, "reading " + file.getFileName()));
  }

  private Optional<WavScales> scales() throws CommandFailure {
    if (voltageFullScale.isPresent() != currentFullScale.isPresent()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "A WAV file needs both --voltage-full-scale and --current-full-scale; one was given.");
    }
    try {
      return voltageFullScale.map(
          volt ->
              new WavScales(
                  volt, currentFullScale.orElseThrow(), currentDelaySeconds, voltageChannel));
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(ExitCode.USAGE, absurd.getMessage() + ".", absurd);
    }
  }
}
