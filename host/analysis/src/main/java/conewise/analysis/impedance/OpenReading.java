package conewise.analysis.impedance;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import java.util.List;

/**
 * What the jig reads with nothing on its terminals, as an admittance: an open jig has hardly any
 * current, so its impedance would be a number divided by next to nothing.
 *
 * @param points the admittance in siemens, frequencies strictly rising, at least one
 */
public record OpenReading(List<Point> points) {

  /**
   * The admittance at one frequency, in siemens.
   *
   * @param frequencyHz frequency in hertz, at least 0
   * @param conductanceSiemens real part, finite
   * @param susceptanceSiemens imaginary part, finite
   * @param standardUncertaintySiemens standard uncertainty of either part, not negative
   */
  public record Point(
      double frequencyHz,
      double conductanceSiemens,
      double susceptanceSiemens,
      double standardUncertaintySiemens) {
    public Point {
      if (!(standardUncertaintySiemens >= 0)) {
        throw new IllegalArgumentException(
            "the standard uncertainty is "
                + standardUncertaintySiemens
                + " S; it may not be negative");
      }
      // The same bounds hold for an impedance's parts.
      ImpedancePoint.requireFinite(frequencyHz, conductanceSiemens, susceptanceSiemens, "siemens");
    }
  }

  public OpenReading {
    points = List.copyOf(points);
    ImpedanceCurve.requireRising(points.stream().mapToDouble(Point::frequencyHz).toArray());
  }

  /** Terminals through which nothing whatever leaks, at any frequency. */
  public static OpenReading perfect() {
    return new OpenReading(
        List.of(new Point(0, 0, 0, 0), new Point(OnePortCorrection.ANY_FREQUENCY_HZ, 0, 0, 0)));
  }

  /**
   * Reads open terminals.
   *
   * @param capture voltage and current, driven with nothing on the terminals
   * @param frequenciesHz the frequencies played, in hertz
   * @return the reading; or no result when the tones cannot be fitted or the voltage is too small
   */
  public static Outcome<OpenReading> of(Capture capture, double... frequenciesHz) {
    Capture swapped =
        new Capture(
            /* voltageVolt= */ capture.currentAmpere(), /* currentAmpere= */ capture.voltageVolt());
    Outcome<ImpedanceEstimate> ratio = ImpedanceEstimator.estimate(swapped, frequenciesHz);
    if (ratio instanceof Outcome.NoResult<ImpedanceEstimate>) {
      return Outcome.none(
          "the open terminals could not be read: the voltage is too small, or the"
              + " record too short for its tones; check that the jig drives its terminals");
    }
    return ratio.map(
        estimate ->
            new OpenReading(estimate.curve().points().stream().map(OpenReading::point).toList()));
  }

  private static Point point(ImpedancePoint ratio) {
    return new Point(
        ratio.frequencyHz(),
        ratio.resistanceOhm(),
        ratio.reactanceOhm(),
        ratio.uncertainty().map(ImpedanceUncertainty::standardUncertaintyOhm).orElse(0.0));
  }
}
