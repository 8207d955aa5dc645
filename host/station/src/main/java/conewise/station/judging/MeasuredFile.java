package conewise.station.judging;

import conewise.analysis.judgement.Measurement;
import conewise.station.files.BadFileException;
import conewise.station.files.MeasurementFile;
import conewise.station.files.Progress;
import conewise.station.files.WavScales;
import java.nio.file.Path;
import java.util.Optional;

/** A measurement from a file of any known kind; a recording is turned into impedance. */
public final class MeasuredFile {
  private MeasuredFile() {}

  /**
   * Reads a curve as it is, or computes one from a recording.
   *
   * @param file an impedance table, a Touchstone file or a recording
   * @param scales what a WAV file's numbers mean; not needed for the others
   * @param progress hears how far the reading has come
   * @return the curve or why there is none, and what a recording shows of the bench
   * @throws BadFileException when the file is none of these, or is damaged
   */
  public static Measurement read(Path file, Optional<WavScales> scales, Progress progress)
      throws BadFileException {
    MeasurementFile.Content content =
        MeasurementFile.read(file, new MeasurementFile.Options(scales, progress));
    if (content instanceof MeasurementFile.Content.Curve curve) {
      return Measurement.of(curve.curve());
    }
    progress.at(0.99);
    return RecordingReader.read(((MeasurementFile.Content.Recording) content).capture());
  }
}
