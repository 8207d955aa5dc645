package conewise.station.files;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.nio.ByteBuffer;
import java.nio.file.Path;

/**
 * Two-channel WAV recordings, one channel the voltage and the other the current, with the scales
 * stated by whoever made them. PCM of 16, 24 and 32 bits and IEEE float of 32 bits.
 */
public final class WavRecording {

  /**
   * From here on a sample counts as saturated: the top code, and never more than the top code of a
   * 24-bit converter, since that is what stands behind files of 32 bits.
   */
  private static final int CONVERTER_BITS = 24;

  private static final int FRAMES_AT_ONCE = 1 << 14;

  private WavRecording() {}

  /**
   * Reads a recording of at most 10 million frames and 1 GiB. The first voltage sample stands at 0
   * s; a sample at full scale, either side, is saturated.
   *
   * @param file the file
   * @param scales what its numbers mean
   * @param progress hears how far the reading has come
   * @throws BadFileException when it is no such recording
   */
  public static Capture read(Path file, WavScales scales, Progress progress)
      throws BadFileException {
    try (WavSource source = WavSource.open(file)) {
      WavSource.Samples samples = source.findSamples();
      int frames = frames(source, samples);
      double[] left = new double[frames];
      double[] right = new double[frames];
      fill(source, samples, left, right, progress);
      boolean voltageLeft = scales.voltageChannel() == WavScales.Side.LEFT;
      return new Capture(
          channel(samples, voltageLeft ? left : right, scales.voltageFullScaleVolt(), 0),
          channel(
              samples,
              voltageLeft ? right : left,
              scales.currentFullScaleAmpere(),
              scales.currentDelaySeconds()));
    }
  }

  /**
   * Writes a recording. A number is kept to the resolution of the coding: half a step of full scale
   * over 2^15, 2^23 or 2^31 for PCM, 24 binary digits for float. Rails are not kept.
   *
   * @param scales what full scale stands for; its delay must be the capture's own, since the file
   *     cannot hold it
   * @throws BadFileException when a sample lies beyond full scale, when the sample rate is no whole
   *     number of hertz (the format holds no other), when the delay differs, or when the file
   *     cannot be written or is there and may not be replaced
   */
  public static void write(
      Path file, Capture capture, WavScales scales, WavCoding coding, Existing existing)
      throws BadFileException {
    WavWriter writer = new WavWriter(file, capture, scales, coding);
    NewFile.write(file, existing, writer::writeTo);
  }

  private static int frames(WavSource source, WavSource.Samples samples) throws BadFileException {
    int frameBytes = WavHeader.CHANNELS * samples.header().coding().bytes();
    if (samples.bytes() == 0) {
      throw source.bad("it holds no sample (0 bytes of them); record or export it again.");
    }
    if (samples.bytes() % frameBytes != 0) {
      throw source.bad(
          "its "
              + samples.bytes()
              + " bytes of samples are no whole number of frames of "
              + frameBytes
              + " bytes; record or export it again.");
    }
    long frames = samples.bytes() / frameBytes;
    if (frames > CaptureTable.MOST_SAMPLES) {
      throw source.bad(
          "it holds "
              + frames
              + " frames and at most "
              + CaptureTable.MOST_SAMPLES
              + " are read; shorten it.");
    }
    return (int) frames;
  }

  private static void fill(
      WavSource source, WavSource.Samples samples, double[] left, double[] right, Progress progress)
      throws BadFileException {
    WavCoding coding = samples.header().coding();
    int frameBytes = WavHeader.CHANNELS * coding.bytes();
    for (int first = 0; first < left.length; first += FRAMES_AT_ONCE) {
      int count = Math.min(FRAMES_AT_ONCE, left.length - first);
      ByteBuffer piece =
          source.bytes(samples.start() + (long) first * frameBytes, count * frameBytes);
      for (int k = first; k < first + count; k++) {
        left[k] = coding.take(piece);
        right[k] = coding.take(piece);
        if (!Double.isFinite(left[k]) || !Double.isFinite(right[k])) {
          throw source.bad("frame " + k + " holds no finite number; record or export it again.");
        }
      }
      if (left.length > FRAMES_AT_ONCE) {
        progress.at((double) (first + count) / left.length);
      }
    }
  }

  private static SampledChannel channel(
      WavSource.Samples samples, double[] parts, double fullScale, double firstInstantSeconds) {
    int bits = Math.min(samples.header().validBits(), CONVERTER_BITS);
    double rail = (1 - Math.scalb(1.0, 1 - bits)) * fullScale;
    for (int k = 0; k < parts.length; k++) {
      parts[k] *= fullScale;
    }
    double interval = 1.0 / samples.header().sampleRateHz();
    return new SampledChannel(parts, firstInstantSeconds, interval, -rail, rail);
  }
}
