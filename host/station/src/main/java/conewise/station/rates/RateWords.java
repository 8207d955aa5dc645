package conewise.station.rates;

import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.FaultPlace;
import conewise.analysis.diagnosis.Rates;
import conewise.station.files.Quoted;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A rate as people write it: {@code 1 in 200 drivers}, or {@code 0.5 %}. */
final class RateWords {
  /** Less can hardly be known, and would make a verdict deaf to that fault. */
  static final double LEAST = 1e-6;

  private static final String NUMBER = "([0-9]{1,12}(?:\\.[0-9]{1,12})?)";
  private static final Pattern PERCENT = Pattern.compile(NUMBER + " *%");
  private static final Pattern SHARE =
      Pattern.compile(NUMBER + " +in +" + NUMBER + "(?: +([a-z][a-z ]*))?");

  private RateWords() {}

  /** Reads one, or says what is wrong with it. */
  static Optional<Double> read(FaultKind kind, Node.Scalar entry, Problems problems) {
    String text = entry.text().strip();
    Matcher share = SHARE.matcher(text);
    Matcher percent = PERCENT.matcher(text);
    FaultPlace place = kind.place();
    if (share.matches()) {
      String noun = share.group(3);
      if (noun != null && !noun.equals(place.one()) && !noun.equals(place.many())) {
        problems.add(entry.line(), wrongPlace(kind, text, noun));
        return Optional.empty();
      }
      return within(kind, entry, quotient(share.group(1), share.group(2)), problems);
    }
    if (percent.matches()) {
      return within(kind, entry, quotient(percent.group(1), "100"), problems);
    }
    problems.add(
        entry.line(),
        kind.id()
            + " is "
            + Quoted.of(text)
            + "; write it like 1 in 200 "
            + place.many()
            + ", or like 0.5 % (of all "
            + place.many()
            + ").");
    return Optional.empty();
  }

  private static double quotient(String part, String whole) {
    BigDecimal divisor = new BigDecimal(whole);
    return divisor.signum() == 0
        ? Double.POSITIVE_INFINITY
        : new BigDecimal(part).divide(divisor, MathContext.DECIMAL64).doubleValue();
  }

  private static Optional<Double> within(
      FaultKind kind, Node.Scalar entry, double rate, Problems problems) {
    if (rate >= LEAST && rate <= Rates.MOST) {
      return Optional.of(rate);
    }
    problems.add(
        entry.line(),
        kind.id()
            + " is "
            + Quoted.of(entry.text())
            + ", out of range; allowed is 1 in 1000000 to 1 in 2 (0.0001 to 50 %).");
    return Optional.empty();
  }

  private static String wrongPlace(FaultKind kind, String text, String noun) {
    FaultPlace place = kind.place();
    boolean known =
        Arrays.stream(FaultPlace.values())
            .anyMatch(each -> noun.equals(each.one()) || noun.equals(each.many()));
    return String.format(
        Locale.ROOT,
        "%s is %s, and it is counted by the %s%s; write it like 1 in 200 %s.",
        kind.id(),
        Quoted.of(text),
        place.one(),
        known ? ": divide what a box has of it by the number of its " + place.many() : "",
        place.many());
  }
}
