package conewise.analysis.judgement;

import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.Locale;
import java.util.Optional;

/** Makes checks of one value against limits, all by the same rule and in the same words. */
final class Checks {
  private Checks() {}

  /**
   * What a check is called: its stable name, its title, the value's name in a sentence and unit.
   */
  record Name(String id, String title, String value, String unit) {}

  /**
   * A guard-banded check.
   *
   * @param whenLow what to do when the value is too low
   * @param whenHigh what to do when it is too high
   */
  static Check guarded(
      Name name, Outcome<Estimate> estimate, Interval limits, String whenLow, String whenHigh) {
    if (estimate instanceof NoResult<Estimate> none) {
      return new Check(
          name.id(),
          name.title(),
          Decision.NOT_JUDGED,
          Outcome.none(none.because()),
          Optional.of(limits),
          "No value for the " + name.value() + ": " + none.because() + ".",
          Optional.of("See what the other checks say of the box, mend that and sweep again."));
    }
    Estimate value = ((Found<Estimate>) estimate).value();
    Decision decision = GuardBand.decide(value.interval(), limits);
    String what =
        text(
            "The %s is %s (%s to %s) %s; allowed is %s",
            name.value(),
            number(value.value()),
            number(value.interval().low()),
            number(value.interval().high()),
            name.unit(),
            range(limits, name.unit()));
    boolean low = value.value() < limits.low() || value.interval().low() < limits.low();
    String step = low ? whenLow : whenHigh;
    return new Check(
        name.id(),
        name.title(),
        decision,
        Outcome.found(new Reading(value.value(), value.interval(), name.unit())),
        Optional.of(limits),
        (what + (decision == Decision.UNDECIDED ? ", and the interval crosses a limit." : "."))
            .replace(" ;", ";"),
        switch (decision) {
          case PASS -> Optional.empty();
          case FAIL -> Optional.of(step);
          default ->
              Optional.of(
                  "Measure again with less noise or more points; if it stays so near the limit: "
                      + BenchDoubt.lower(step));
        });
  }

  static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  static String range(Interval limits, String unit) {
    String tail = unit.isEmpty() ? "" : " " + unit;
    if (limits.high() == Double.POSITIVE_INFINITY) {
      return "at least " + number(limits.low()) + tail;
    }
    if (limits.low() == Double.NEGATIVE_INFINITY) {
      return "at most " + number(limits.high()) + tail;
    }
    return number(limits.low()) + " to " + number(limits.high()) + tail;
  }

  /** Four significant digits at most, no exponent for the usual sizes. */
  static String number(double value) {
    double size = Math.abs(value);
    if (size >= 1e6 || (size > 0 && size < 1e-3)) {
      return text("%.3g", value);
    }
    int decimals = size >= 100 ? 1 : size >= 10 ? 2 : 3;
    String plain = text("%." + decimals + "f", value);
    return plain.contains(".") ? plain.replaceAll("0+$", "").replaceAll("\\.$", "") : plain;
  }
}
