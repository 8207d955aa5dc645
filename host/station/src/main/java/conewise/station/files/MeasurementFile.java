package conewise.station.files;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.sampling.Capture;
import java.nio.file.Path;
import java.util.Optional;

/**
 * A measurement in a file of any kind that is known: recognised by its content first and its name
 * second.
 */
public final class MeasurementFile {

  /** What a measurement file holds. */
  public sealed interface Content {

    /** Impedance over frequency, as it was measured and corrected elsewhere. */
    record Curve(ImpedanceCurve curve) implements Content {}

    /** Raw samples, from which impedance is yet to be computed. */
    record Recording(Capture capture) implements Content {}
  }

  /**
   * What a file cannot say of itself.
   *
   * @param wavScales the meaning of a WAV file's numbers; needed for such a file only
   * @param progress hears how far the reading has come
   */
  public record Options(Optional<WavScales> wavScales, Progress progress) {

    /** No scales, nobody listens. */
    public static Options none() {
      return new Options(Optional.empty(), Progress.UNHEARD);
    }

    /** The scales of a WAV file, nobody listens. */
    public static Options of(WavScales wavScales) {
      return new Options(Optional.of(wavScales), Progress.UNHEARD);
    }
  }

  private MeasurementFile() {}

  /**
   * Reads a measurement.
   *
   * @throws BadFileException when the file is none of the known kinds, or is damaged
   */
  public static Content read(Path file, Options options) throws BadFileException {
    return switch (FileKind.of(file)) {
      case IMPEDANCE_TABLE -> new Content.Curve(ImpedanceTable.read(file));
      case TOUCHSTONE -> new Content.Curve(TouchstoneFile.read(file));
      case CAPTURE_TABLE -> new Content.Recording(CaptureTable.read(file, options.progress()));
      case WAV -> {
        WavScales scales = requireScales(file, options);
        yield new Content.Recording(WavRecording.read(file, scales, options.progress()));
      }
    };
  }

  private static WavScales requireScales(Path file, Options options) throws BadFileException {
    if (options.wavScales().isEmpty()) {
      throw new BadFileException(
          file
              + " is a WAV file, which cannot say what its numbers mean; state how many volts and"
              + " amperes full scale stands for.");
    }
    return options.wavScales().get();
  }
}
