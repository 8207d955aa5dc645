package conewise.analysis.feature;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.util.List;

/** A curve in logarithms: ln f, ln |Z|, and the standard deviation of the latter. */
final class LogCurve {
  private final double[] x;
  private final double[] y;
  private final double jitter;
  private final double noise;

  private LogCurve(double[] x, double[] y, double stated) {
    this.x = x;
    this.y = y;
    double ripple = Ripple.of(x, y);
    this.jitter = Math.max(stated, ripple);
    this.noise = stated > 0 ? stated : ripple;
  }

  /** Takes the points above 0 Hz whose impedance is not 0. */
  static LogCurve of(ImpedanceCurve curve) {
    List<ImpedancePoint> points =
        curve.points().stream().filter(p -> p.frequencyHz() > 0 && p.modulusOhm() > 0).toList();
    double[] x = points.stream().mapToDouble(p -> Math.log(p.frequencyHz())).toArray();
    double[] y = points.stream().mapToDouble(p -> Math.log(p.modulusOhm())).toArray();
    return new LogCurve(x, y, stated(points));
  }

  /** The median of the stated relative uncertainties; 0 where none are stated. */
  private static double stated(List<ImpedancePoint> points) {
    double[] rising =
        points.stream()
            .filter(p -> p.uncertainty().isPresent())
            .mapToDouble(p -> p.uncertainty().get().standardUncertaintyOhm() / p.modulusOhm())
            .sorted()
            .toArray();
    return rising.length == 0 ? 0 : rising[rising.length / 2];
  }

  double[] x() {
    return x;
  }

  double[] y() {
    return y;
  }

  /** The stated relative uncertainty, or the jitter where none is stated. */
  double noise() {
    return noise;
  }

  double jitter() {
    return jitter;
  }
}
