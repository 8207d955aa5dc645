package conewise.analysis.gauge;

import conewise.analysis.gauge.VarianceTable.Line;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.Collections;
import java.util.List;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;

/**
 * What a gauge adds to the spread of what it reads, by two methods that should agree.
 *
 * <p>By analysis of variance the standard deviations follow from the expected mean squares
 * (NIST/SEMATECH e-Handbook, 3.2.3.2; R. K. Burdick, C. M. Borror and D. C. Montgomery, J. Quality
 * Technology 35, 2003); one that comes out negative is none. By averages and ranges repeatability
 * is the mean range over d2, the operators' and the parts' spread the range of their means over d2*
 * (common practice; Automotive Industry Action Group, Measurement Systems Analysis, 4th edition,
 * 2010, chapter III). The first also knows of operators who read some parts otherwise, and is what
 * is to be told.
 *
 * @param readings what it rests on
 * @param table the analysis of variance
 * @param byVariance the answer
 * @param byRange the same by averages and ranges
 * @param gauge the gauge's own standard deviation by variance, with its 95 % interval
 */
public record GaugeStudy(
    CrossedReadings readings,
    VarianceTable table,
    Spread byVariance,
    Spread byRange,
    Estimate gauge) {
  private static final double TAIL = 0.025;

  /** Readings that differ by less than this, relative to their size, differ by rounding alone. */
  private static final double ROUNDING = 1e-12;

  /**
   * Works a study out.
   *
   * @return no result with a reason where parts, operators or trials are too few, a cell is
   *     missing, or nothing spreads
   */
  public static Outcome<GaugeStudy> of(List<GaugeReading> readings) {
    Outcome<CrossedReadings> crossed = CrossedReadings.of(readings);
    if (crossed instanceof NoResult<CrossedReadings> none) {
      return Outcome.none(none.because());
    }
    return of(((Outcome.Found<CrossedReadings>) crossed).value());
  }

  private static Outcome<GaugeStudy> of(CrossedReadings readings) {
    VarianceTable table = VarianceTable.of(readings);
    double least = square(ROUNDING * readings.mean());
    if (table.repeat().mean() <= least && table.interaction().mean() <= least) {
      return Outcome.none(
          "all readings of a part are the same: the gauge's steps are too coarse to show its"
              + " spread, or it was read once and copied");
    }
    Spread byVariance = byVariance(readings, table);
    return Outcome.found(
        new GaugeStudy(readings, table, byVariance, byRange(readings), gauge(readings, table)));
  }

  private static Spread byVariance(CrossedReadings readings, VarianceTable table) {
    int trials = readings.trials();
    Line repeat = table.pooled() ? table.repeat().and(table.interaction()) : table.repeat();
    double beside = table.pooled() ? repeat.mean() : table.interaction().mean();
    double interaction = table.pooled() ? 0 : Math.max(0, (beside - repeat.mean()) / trials);
    double operators =
        Math.max(0, (table.operator().mean() - beside) / (trials * readings.parts().size()));
    double parts =
        Math.max(0, (table.part().mean() - beside) / (trials * readings.operators().size()));
    return new Spread(
        Math.sqrt(repeat.mean()), Math.sqrt(operators + interaction), Math.sqrt(parts));
  }

  /**
   * The gauge's variance as a sum of mean squares, its degrees of freedom by F. E. Satterthwaite
   * (Biometrics Bulletin 2, 1946), its interval by chi-squared.
   */
  private static Estimate gauge(CrossedReadings readings, VarianceTable table) {
    double trials = readings.trials();
    double parts = readings.parts().size();
    double variance = square(byVariance(readings, table).gauge());
    Line repeat = table.pooled() ? table.repeat().and(table.interaction()) : table.repeat();
    Line beside = table.pooled() ? repeat : table.interaction();
    boolean operators = table.operator().mean() > beside.mean();
    double ofOperators = operators ? 1 / (trials * parts) : 0;
    double squares = operators ? ofFreedom(ofOperators, table.operator()) : 0;
    if (table.pooled()) {
      squares += ofFreedom(1 - ofOperators, repeat);
    } else {
      // An interaction that is not pooled exceeds repeatability.
      squares += ofFreedom(1 / trials - ofOperators, table.interaction());
      squares += ofFreedom(1 - 1 / trials, table.repeat());
    }
    double freedom = variance * variance / squares;
    ChiSquaredDistribution chi = new ChiSquaredDistribution(null, freedom);
    double low = variance * freedom / chi.inverseCumulativeProbability(1 - TAIL);
    double high = variance * freedom / chi.inverseCumulativeProbability(TAIL);
    return new Estimate(Math.sqrt(variance), new Interval(Math.sqrt(low), Math.sqrt(high)));
  }

  private static double ofFreedom(double share, Line line) {
    return square(share * line.mean()) / line.freedom();
  }

  private static Spread byRange(CrossedReadings readings) {
    int parts = readings.parts().size();
    int operators = readings.operators().size();
    double ranges =
        readings.cells().stream().mapToDouble(GaugeStudy::range).average().orElseThrow();
    double repeatability = ranges / RangeFactor.mean(readings.trials());
    double ofOperators =
        range(indices(operators).stream().map(readings::operatorMean).toList())
            / RangeFactor.rootMeanSquare(operators);
    double own = square(ofOperators) - square(repeatability) / (parts * readings.trials());
    double ofParts =
        range(indices(parts).stream().map(readings::partMean).toList())
            / RangeFactor.rootMeanSquare(parts);
    return new Spread(repeatability, Math.sqrt(Math.max(0, own)), ofParts);
  }

  private static List<Integer> indices(int count) {
    return java.util.stream.IntStream.range(0, count).boxed().toList();
  }

  private static double range(List<Double> values) {
    return Collections.max(values) - Collections.min(values);
  }

  private static double square(double x) {
    return x * x;
  }
}
