package conewise.analysis.sampling;

import java.util.Arrays;

/** The lines of a record: whole multiples of one over its duration. */
public final class RecordLines {

  private RecordLines() {}

  /**
   * The power on a run of lines, nothing windowed: what repeats a whole number of times in the
   * record stands on single lines, all else leaks over many.
   *
   * @param channel the samples; their mean is taken away first
   * @param first the first line, at least 1
   * @param last the last line, below half the number of samples
   * @return the squared peak amplitude on each line from first to last, in unit squared
   */
  public static double[] power(SampledChannel channel, int first, int last) {
    if (first < 1 || last < first || 2 * last >= channel.length()) {
      throw new IllegalArgumentException(
          "lines "
              + first
              + " to "
              + last
              + " of "
              + channel.length()
              + " samples; they run from 1 to below half the number of samples");
    }
    int length = channel.length();
    double[] samples = channel.values().clone();
    double mean = Arrays.stream(samples).average().orElseThrow();
    for (int k = 0; k < length; k++) {
      samples[k] -= mean;
    }
    double[] power = new double[last - first + 1];
    for (int line = first; line <= last; line++) {
      double modulus = new Projection(length, 2 * Math.PI * line / length).of(samples).abs();
      power[line - first] = Math.pow(2 * modulus / length, 2);
    }
    return power;
  }
}
