package conewise.station.selftest;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.time.ZonedDateTime;
import java.util.Optional;

/**
 * What a jig read of a check resistor.
 *
 * @param taken when
 * @param resistor the name that it goes by: 1 to 32 letters, digits, spaces, points or hyphens
 * @param valueOhm what it is, positive
 * @param toleranceFraction its tolerance over its value, 0 to 0.5
 * @param readOhm what was read, positive
 * @param noiseOhm the standard uncertainty that the points' scatter leaves, not negative
 * @param scaleUncertainty the relative standard uncertainty of the jig's scale, 0 to 0.5
 * @param calibration the calibration in use; empty for the nominal scales
 * @param temperatureCelsius the room's, where somebody said it
 */
public record CheckReading(
    ZonedDateTime taken,
    String resistor,
    double valueOhm,
    double toleranceFraction,
    double readOhm,
    double noiseOhm,
    double scaleUncertainty,
    Optional<String> calibration,
    Optional<Double> temperatureCelsius) {

  /** Where a small jig is quiet and its filters bend nothing yet. */
  private static final double LOW_HZ = 20;

  private static final double HIGH_HZ = 200;

  /** Checks each value. */
  public CheckReading {
    if (!resistor.matches("[A-Za-z0-9][A-Za-z0-9 .-]{0,31}")) {
      throw new IllegalArgumentException(
          "the resistor's name is not 1 to 32 letters, digits, spaces, points or hyphens");
    }
    require("value", valueOhm, Double.MIN_NORMAL, 1e6);
    require("tolerance", toleranceFraction, 0, 0.5);
    require("reading", readOhm, Double.MIN_NORMAL, 1e6);
    require("noise", noiseOhm, 0, 1e6);
    require("uncertainty of the scale", scaleUncertainty, 0, 0.5);
    if (calibration.isPresent() && !calibration.get().matches("[A-Za-z0-9-]{1,16}")) {
      throw new IllegalArgumentException(
          "the calibration's name is not 1 to 16 letters, digits or hyphens");
    }
    temperatureCelsius.ifPresent(celsius -> require("temperature", celsius, -40, 85));
  }

  private static void require(String what, double value, double low, double high) {
    if (!(low <= value && value <= high)) {
      throw new IllegalArgumentException(
          "the " + what + " is " + value + "; it must be from " + low + " to " + high);
    }
  }

  /**
   * The resistance that a curve shows from 20 to 200 Hz, and the standard uncertainty of its mean
   * (JCGM 100, 4.2.3).
   *
   * @param ohm mean resistance, in ohm
   * @param noiseOhm standard uncertainty, in ohm
   */
  public record Mean(double ohm, double noiseOhm) {
    /** Of a curve; empty when fewer than three of its points lie there. */
    public static Optional<Mean> of(ImpedanceCurve curve) {
      double[] ohms =
          curve.points().stream()
              .filter(p -> p.frequencyHz() >= LOW_HZ && p.frequencyHz() <= HIGH_HZ)
              .mapToDouble(ImpedancePoint::resistanceOhm)
              .toArray();
      if (ohms.length < 3) {
        return Optional.empty();
      }
      double sum = 0;
      for (double ohm : ohms) {
        sum += ohm;
      }
      double mean = sum / ohms.length;
      double squares = 0;
      for (double ohm : ohms) {
        squares += (ohm - mean) * (ohm - mean);
      }
      return Optional.of(new Mean(mean, Math.sqrt(squares / (ohms.length - 1.0) / ohms.length)));
    }
  }
}
