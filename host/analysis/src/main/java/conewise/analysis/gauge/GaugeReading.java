package conewise.analysis.gauge;

/**
 * One reading of a gauge study.
 *
 * @param part what was read
 * @param operator who read it
 * @param value finite, in the figure's unit
 */
public record GaugeReading(String part, String operator, double value) {
  public GaugeReading {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException(
          "the reading of part " + part + " by " + operator + " is " + value);
    }
  }
}
