package conewise.analysis.impedance;

import java.util.List;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.complex.Complex;

/**
 * A complex reading with its covariance, at a frequency of its own or between two.
 *
 * @param uncertainty in the reading's unit squared; zero when none was stated
 */
record Reading(Complex value, ImpedanceUncertainty uncertainty) {

  private static final ImpedanceUncertainty NONE_STATED = ImpedanceUncertainty.circular(0);

  static Reading of(ImpedancePoint point) {
    return new Reading(
        new Complex(point.resistanceOhm(), point.reactanceOhm()),
        point.uncertainty().orElse(NONE_STATED));
  }

  private static Reading of(OpenReading.Point point) {
    return new Reading(
        new Complex(point.conductanceSiemens(), point.susceptanceSiemens()),
        ImpedanceUncertainty.circular(point.standardUncertaintySiemens()));
  }

  /** The curve's value at a frequency within its range. */
  static Reading at(ImpedanceCurve curve, double frequencyHz) {
    List<ImpedancePoint> points = curve.points();
    int after = firstAtOrAbove(points, ImpedancePoint::frequencyHz, frequencyHz);
    ImpedancePoint high = points.get(after);
    if (after == 0) {
      return of(high);
    }
    ImpedancePoint low = points.get(after - 1);
    return between(
        of(low),
        of(high),
        (frequencyHz - low.frequencyHz()) / (high.frequencyHz() - low.frequencyHz()));
  }

  /** The open terminals' admittance at a frequency within its range. */
  static Reading at(OpenReading open, double frequencyHz) {
    List<OpenReading.Point> points = open.points();
    int after = firstAtOrAbove(points, OpenReading.Point::frequencyHz, frequencyHz);
    OpenReading.Point high = points.get(after);
    if (after == 0) {
      return of(high);
    }
    OpenReading.Point low = points.get(after - 1);
    return between(
        of(low),
        of(high),
        (frequencyHz - low.frequencyHz()) / (high.frequencyHz() - low.frequencyHz()));
  }

  private static <P> int firstAtOrAbove(
      List<P> points, ToDoubleFunction<P> frequency, double frequencyHz) {
    int low = 0;
    int high = points.size() - 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (frequency.applyAsDouble(points.get(middle)) < frequencyHz) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static Reading between(Reading low, Reading high, double part) {
    return new Reading(
        low.value().multiply(1 - part).add(high.value().multiply(part)),
        low.uncertainty()
            .through(new Complex(1 - part))
            .plus(high.uncertainty().through(new Complex(part))));
  }
}
