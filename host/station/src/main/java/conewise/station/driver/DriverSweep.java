package conewise.station.driver;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.UsablePoints;
import java.nio.file.Path;

/**
 * One sweep of a driver.
 *
 * @param file where it came from
 * @param state the state that the driver was in
 * @param curve the impedance
 */
public record DriverSweep(Path file, DriverState state, ImpedanceCurve curve) {
  /** What is fitted of it: the points up to a frequency, thinned where they are many. */
  DriverSweep fitted(double highestHz) {
    return UsablePoints.of(curve, highestHz) instanceof Outcome.Found<ImpedanceCurve> usable
        ? new DriverSweep(file, state, usable.value())
        : this;
  }
}
