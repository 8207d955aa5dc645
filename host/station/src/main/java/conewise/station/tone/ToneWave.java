package conewise.station.tone;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.WavCoding;
import conewise.station.files.WavRecording;
import conewise.station.files.WavScales;
import java.nio.file.Path;

/**
 * A sine that swells and fades as a raised cosine, alike on both channels.
 *
 * @param frequencyHz {@value #LOWEST_HZ} to {@value #HIGHEST_HZ}
 * @param seconds whole length, {@value #SHORTEST} to {@value #LONGEST}
 * @param part amplitude as a part of full scale, above 0, at most {@value #MOST}
 */
public record ToneWave(double frequencyHz, double seconds, double part) {
  /** Lowest frequency. */
  public static final double LOWEST_HZ = 5;

  /** Highest frequency. */
  public static final double HIGHEST_HZ = 500;

  /** Least length in seconds. */
  public static final double SHORTEST = 1;

  /** Greatest length in seconds: no longer than a coil is loaded without a pause. */
  public static final double LONGEST = 60;

  /** Largest amplitude. */
  public static final double MOST = 0.9;

  /** Samples a second: what every player takes. */
  public static final int RATE_HZ = 48_000;

  /** How long it swells, and fades. */
  static final double FADE_SECONDS = 0.3;

  public ToneWave {
    require("the frequency of a tone in Hz", frequencyHz, LOWEST_HZ, HIGHEST_HZ);
    require("the length of a tone in seconds", seconds, SHORTEST, LONGEST);
    require("the amplitude of a tone over full scale", part, 1e-3, MOST);
  }

  private static void require(String what, double value, double low, double high) {
    if (!(value >= low && value <= high)) {
      throw new IllegalArgumentException(
          what + " is " + value + "; it must be from " + low + " to " + high);
    }
  }

  /** Its samples over full scale, {@value #RATE_HZ} a second. */
  public double[] samples() {
    double[] samples = new double[(int) Math.round(seconds * RATE_HZ)];
    for (int k = 0; k < samples.length; k++) {
      double t = (double) k / RATE_HZ;
      double toEnd = (double) (samples.length - 1 - k) / RATE_HZ;
      double swell = fade(t) * fade(toEnd);
      samples[k] = part * swell * Math.sin(2 * Math.PI * frequencyHz * t);
    }
    return samples;
  }

  private static double fade(double seconds) {
    return seconds >= FADE_SECONDS ? 1 : (1 - Math.cos(Math.PI * seconds / FADE_SECONDS)) / 2;
  }

  /**
   * Writes it as WAV, PCM of 24 bits on two channels. It is not dithered: the error of rounding
   * lies 140 dB below full scale, under the noise of every amplifier.
   *
   * @throws BadFileException when it cannot be written
   */
  public void write(Path file) throws BadFileException {
    double[] samples = samples();
    SampledChannel channel = SampledChannel.of(samples, 0, 1.0 / RATE_HZ);
    WavRecording.write(
        file,
        new Capture(channel, channel),
        WavScales.of(1, 1),
        WavCoding.PCM_24,
        Existing.REPLACE);
  }
}
