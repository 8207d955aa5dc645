package conewise.station.card;

import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Interval;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/**
 * Figures as a person reads them: a value carries no more digits than its interval allows (two
 * significant digits of the half width, JCGM 100, 7.2.6).
 */
public final class Figures {
  private static final int MOST_DECIMALS = 4;
  private static final String PROBABILITY = "probability";

  /** What is nearer to 0 or 1 is told as less than this away from it. */
  private static final double NEAREST = 0.001;

  private Figures() {}

  /** The value alone with its unit, e.g. {@code 34.0 Hz}. */
  public static String value(Reading reading) {
    if (reading.unit().equals(PROBABILITY)) {
      return probability(reading.value());
    }
    String unit = reading.unit().isEmpty() ? "" : " " + reading.unit();
    boolean one = reading.value() == 1 && unit.equals(" peaks");
    return fixed(reading.value(), decimals(reading)) + (one ? " peak" : unit);
  }

  private static String probability(double value) {
    return value < NEAREST
        ? "under 0.001"
        : value > 1 - NEAREST ? "over 0.999" : String.format(Locale.ROOT, "%.3f", value);
  }

  /**
   * The 95 % interval without unit, e.g. {@code 33.6 to 34.4}; a width of zero says "exact". A
   * probability says all that is known by itself.
   */
  public static String interval(Reading reading) {
    if (reading.unit().equals(PROBABILITY)) {
      return "a probability";
    }
    Interval interval = reading.interval();
    if (interval.low() == interval.high()) {
      return "exact";
    }
    int decimals = decimals(reading);
    return range(fixed(interval.low(), decimals), fixed(interval.high(), decimals), interval);
  }

  /** Limits as the plan gives them: {@code 32.3 to 35.7}, {@code at least 3.2}. */
  public static String limits(Interval limits) {
    if (limits.low() == limits.high()) {
      return plain(limits.low());
    }
    return range(plain(limits.low()), plain(limits.high()), limits);
  }

  /** Four significant digits at most, no trailing zeros, no exponent in the usual range. */
  public static String plain(double value) {
    if (value == 0 || !Double.isFinite(value)) {
      return value == 0 ? "0" : Double.toString(value);
    }
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(4, RoundingMode.HALF_EVEN));
    double size = Math.abs(value);
    return size < 1e-4 || size >= 1e7
        ? String.format(Locale.ROOT, "%.3g", value)
        : rounded.stripTrailingZeros().toPlainString();
  }

  private static String range(String low, String high, Interval interval) {
    if (Double.isInfinite(interval.low())) {
      return Double.isInfinite(interval.high()) ? "any" : "at most " + high;
    }
    return Double.isInfinite(interval.high()) ? "at least " + low : low + " to " + high;
  }

  private static int decimals(Reading reading) {
    double half = (reading.interval().high() - reading.interval().low()) / 2;
    if (half == 0) {
      return reading.value() == Math.rint(reading.value()) ? 0 : MOST_DECIMALS;
    }
    if (Double.isInfinite(half)) {
      return 2;
    }
    int decimals = 1 - (int) Math.floor(Math.log10(half));
    return Math.max(0, Math.min(MOST_DECIMALS, decimals));
  }

  private static String fixed(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }
}
