package conewise.station.records.trend;

import java.time.Instant;

/**
 * A figure of one run.
 *
 * @param run the run's number in the records
 * @param serial the box's own number
 * @param finished when
 * @param value finite
 * @param unit as the records have it
 */
public record ReadFigure(long run, String serial, Instant finished, double value, String unit) {
  public ReadFigure {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("the figure of run " + run + " is " + value);
    }
  }
}
