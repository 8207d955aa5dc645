package conewise.station.chart;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A fitted sweep as it is to be drawn.
 *
 * @param measured the measured points above 0 Hz, at least two
 * @param there the fitted curve at their frequencies, with the scale that all sweeps share
 * @param fitted the fitted curve, dense, over the same range
 * @param explained for each point the standard deviation that noise and discrepancy explain: of ln
 *     |Z|, and of the phase in radian
 */
public record FitDrawing(
    List<ImpedancePoint> measured,
    List<ImpedancePoint> there,
    List<ImpedancePoint> fitted,
    List<Double> explained,
    List<Double> scattered) {
  private static final int DENSE_POINTS = 1200;

  /** Of a normal distribution 95 % lie within so many standard deviations. */
  private static final double COVERAGE_FACTOR = 1.96;

  public FitDrawing {
    measured = List.copyOf(measured);
    there = List.copyOf(there);
    fitted = List.copyOf(fitted);
    explained = List.copyOf(explained);
    scattered = List.copyOf(scattered);
    if (measured.size() < 2
        || there.size() != measured.size()
        || explained.size() != measured.size()
        || scattered.size() != measured.size()) {
      throw new IllegalArgumentException(
          "a fit is drawn of at least 2 points with as many of the fit and of what is explained;"
              + " there were "
              + measured.size()
              + ", "
              + there.size()
              + " and "
              + explained.size());
    }
  }

  /**
   * The drawing of one sweep of a fit.
   *
   * @param sweep which, from 0
   */
  public static FitDrawing of(BoxFit fit, int sweep) {
    List<ImpedancePoint> measured =
        fit.sweeps().get(sweep).curve().points().stream()
            .filter(point -> point.frequencyHz() > 0)
            .toList();
    double[] hz = measured.stream().mapToDouble(ImpedancePoint::frequencyHz).toArray();
    double ratio = hz[hz.length - 1] / hz[0];
    double[] dense = new double[DENSE_POINTS];
    for (int i = 0; i < DENSE_POINTS; i++) {
      dense[i] = hz[0] * Math.pow(ratio, i / (DENSE_POINTS - 1.0));
    }
    return new FitDrawing(
        measured,
        scaled(fit.curve(sweep, hz), fit.scale()),
        scaled(fit.curve(sweep, dense), fit.scale()),
        Arrays.stream(fit.explained(sweep)).boxed().toList(),
        Arrays.stream(fit.scattered(sweep)).boxed().toList());
  }

  private static List<ImpedancePoint> scaled(ImpedanceCurve curve, double scale) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (ImpedancePoint point : curve.points()) {
      points.add(
          new ImpedancePoint(
              point.frequencyHz(),
              scale * point.resistanceOhm(),
              scale * point.reactanceOhm(),
              Optional.empty()));
    }
    return points;
  }

  FrequencyAxis frequencyAxis() {
    return FrequencyAxis.around(
        measured.get(0).frequencyHz(), measured.get(measured.size() - 1).frequencyHz());
  }

  /** Measured over fitted modulus, less 1, in per cent. */
  double modulusResidual(int point) {
    return 100 * (measured.get(point).modulusOhm() / there.get(point).modulusOhm() - 1);
  }

  /** Measured less fitted phase in degrees, -180 to 180. */
  double phaseResidual(int point) {
    double off = measured.get(point).phaseDegrees() - there.get(point).phaseDegrees();
    return Math.IEEEremainder(off, 360);
  }

  /** A residual of the modulus, in per cent, that a deviation of ln |Z| explains at 95 %. */
  static double modulusBand(double deviation) {
    return 100 * COVERAGE_FACTOR * deviation;
  }

  /** The same of the phase's residual, in degrees. */
  static double phaseBand(double deviation) {
    return Math.toDegrees(COVERAGE_FACTOR * deviation);
  }
}
