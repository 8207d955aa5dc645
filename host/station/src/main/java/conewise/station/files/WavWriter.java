package conewise.station.files;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/**
 * Writes the bytes of a two-channel WAV file, having made sure that the file can hold the capture.
 */
final class WavWriter {

  private static final int HEAD_BYTES = 44;

  /** Delays nearer than this are the same one: a thousandth of the shortest sample interval. */
  private static final double SAME_DELAY_SECONDS = 1e-10;

  private final Capture capture;
  private final WavScales scales;
  private final WavCoding coding;
  private final int rateHz;

  WavWriter(Path file, Capture capture, WavScales scales, WavCoding coding)
      throws BadFileException {
    this.capture = capture;
    this.scales = scales;
    this.coding = coding;
    this.rateHz = wholeRate(file, capture.voltageVolt().intervalSeconds());
    requireSameDelay(file);
    requireRoom(file, "voltage", capture.voltageVolt(), scales.voltageFullScaleVolt());
    requireRoom(file, "current", capture.currentAmpere(), scales.currentFullScaleAmpere());
    if (capture.voltageVolt().length() > CaptureTable.MOST_SAMPLES) {
      throw new BadFileException(
          file
              + ": the capture has "
              + capture.voltageVolt().length()
              + " samples a channel and at most "
              + CaptureTable.MOST_SAMPLES
              + " are written; shorten it.");
    }
  }

  void writeTo(OutputStream out) throws IOException {
    boolean voltageLeft = scales.voltageChannel() == WavScales.Side.LEFT;
    double[] volt = capture.voltageVolt().values();
    double[] ampere = capture.currentAmpere().values();
    int frameBytes = WavHeader.CHANNELS * coding.bytes();
    out.write(head(volt.length * frameBytes));
    ByteBuffer frame = ByteBuffer.allocate(frameBytes).order(ByteOrder.LITTLE_ENDIAN);
    for (int k = 0; k < volt.length; k++) {
      double voltPart = volt[k] / scales.voltageFullScaleVolt();
      double amperePart = ampere[k] / scales.currentFullScaleAmpere();
      frame.clear();
      coding.put(frame, voltageLeft ? voltPart : amperePart);
      coding.put(frame, voltageLeft ? amperePart : voltPart);
      out.write(frame.array());
    }
  }

  private byte[] head(int dataBytes) {
    int frameBytes = WavHeader.CHANNELS * coding.bytes();
    int tag = coding == WavCoding.FLOAT_32 ? WavHeader.FLOAT : WavHeader.PCM;
    ByteBuffer head = ByteBuffer.allocate(HEAD_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    head.put(ascii("RIFF")).putInt(HEAD_BYTES - 8 + dataBytes).put(ascii("WAVE"));
    head.put(ascii("fmt ")).putInt(WavHeader.SHORTEST);
    head.putShort((short) tag).putShort((short) WavHeader.CHANNELS).putInt(rateHz);
    head.putInt(rateHz * frameBytes).putShort((short) frameBytes);
    head.putShort((short) (8 * coding.bytes()));
    head.put(ascii("data")).putInt(dataBytes);
    return head.array();
  }

  private static byte[] ascii(String word) {
    return word.getBytes(StandardCharsets.US_ASCII);
  }

  private static int wholeRate(Path file, double intervalSeconds) throws BadFileException {
    double rate = SampleRate.ofInterval(intervalSeconds);
    if (rate != Math.rint(rate) || rate < 1 || rate > WavHeader.FASTEST_HZ) {
      throw new BadFileException(
          file
              + ": the sample rate is "
              + rate
              + " Hz and a WAV file holds whole ones from 1 to "
              + WavHeader.FASTEST_HZ
              + " Hz only; write the capture as CSV.");
    }
    return (int) rate;
  }

  private void requireSameDelay(Path file) throws BadFileException {
    double delay =
        capture.currentAmpere().firstInstantSeconds() - capture.voltageVolt().firstInstantSeconds();
    if (!(Math.abs(delay - scales.currentDelaySeconds()) <= SAME_DELAY_SECONDS)) {
      throw new BadFileException(
          file
              + ": the current was sampled "
              + delay
              + " s after the voltage and the scales say "
              + scales.currentDelaySeconds()
              + " s, which the file cannot hold; state the capture's own delay.");
    }
  }

  private void requireRoom(Path file, String what, SampledChannel channel, double fullScale)
      throws BadFileException {
    double highest = coding.largest() * fullScale;
    for (int k = 0; k < channel.length(); k++) {
      double value = channel.values()[k];
      if (value < -fullScale || value > highest) {
        throw new BadFileException(
            file
                + ": sample "
                + k
                + " of the "
                + what
                + " is "
                + value
                + " and full scale holds "
                + -fullScale
                + " to "
                + highest
                + "; state a larger full scale.");
      }
    }
  }
}
