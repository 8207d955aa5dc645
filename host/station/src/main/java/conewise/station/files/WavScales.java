package conewise.station.files;

/**
 * What the numbers of a two-channel WAV file mean, since the file itself cannot say it.
 *
 * @param voltageFullScaleVolt the voltage that full scale stands for, in volt, positive
 * @param currentFullScaleAmpere the current that full scale stands for, in ampere, positive
 * @param currentDelaySeconds how much later each current sample was taken than the voltage sample
 *     beside it, in seconds, finite; 0 when a recorder takes both at once
 * @param voltageChannel where the voltage is; the current is in the other channel
 */
public record WavScales(
    double voltageFullScaleVolt,
    double currentFullScaleAmpere,
    double currentDelaySeconds,
    Side voltageChannel) {

  /** A channel of a two-channel file: the left one comes first. */
  public enum Side {
    LEFT,
    RIGHT
  }

  public WavScales {
    requirePositive("voltage", voltageFullScaleVolt, "V");
    requirePositive("current", currentFullScaleAmpere, "A");
    if (!Double.isFinite(currentDelaySeconds)) {
      throw new IllegalArgumentException(
          "the delay of the current is " + currentDelaySeconds + " s; it must be finite");
    }
  }

  /** Both channels taken at once, the voltage on the left. */
  public static WavScales of(double voltageFullScaleVolt, double currentFullScaleAmpere) {
    return new WavScales(voltageFullScaleVolt, currentFullScaleAmpere, 0, Side.LEFT);
  }

  private static void requirePositive(String what, double value, String unit) {
    if (!(value > 0) || value > NumberText.LARGEST) {
      throw new IllegalArgumentException(
          "full scale of the "
              + what
              + " is "
              + value
              + " "
              + unit
              + "; it must be above 0 and at most "
              + NumberText.LARGEST);
    }
  }
}
