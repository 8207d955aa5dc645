package conewise.analysis.judgement;

import static conewise.analysis.judgement.Evidence.text;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.judgement.Evidence.Implied;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.BoxPlan.Kind;
import java.util.Optional;

/** The checks of the curve's pattern: its peaks, and what they say of relative polarity. */
final class PatternChecks {
  static final String POP_TEST =
      "Pop test, amplifier disconnected: touch a 1.5 V cell to the terminals for less than a"
          + " second; all cones must move the same way (the other way for a driver mounted magnet"
          + " out).";

  private final Evidence evidence;

  PatternChecks(Evidence evidence) {
    this.evidence = evidence;
  }

  Check peaks() {
    int expected = evidence.expectedPeaks();
    Interval count = evidence.peakCount();
    Interval limits = new Interval(expected, expected);
    Decision decision = GuardBand.decide(count, limits);
    double value = Math.min(count.high(), Math.max(count.low(), evidence.fittedPeaks()));
    String kind = evidence.plan().kind() == Kind.VENTED ? "a vented" : "a sealed";
    String reason =
        text(
            "|Z| shows %s; %s box shows %s.",
            counted(count), kind, expected == 2 ? "2 peaks and a dip" : "1 peak");
    if (evidence.features().extrema().fallsFromLowEnd()) {
      reason += text(" At %s Hz it still falls: a peak may lie lower.", lowestHz());
    }
    return new Check(
        "peaks",
        "Peaks of |Z|",
        decision,
        Outcome.found(new Reading(value, count, "peaks")),
        Optional.of(limits),
        reason,
        switch (decision) {
          case PASS -> Optional.empty();
          case FAIL -> Optional.of("See the suspects below, most likely first.");
          default -> Optional.of("Sweep again from a lower frequency, with denser points.");
        });
  }

  private String lowestHz() {
    return Checks.number(
        evidence.curve().points().stream()
            .mapToDouble(ImpedancePoint::frequencyHz)
            .filter(hz -> hz > 0)
            .findFirst()
            .orElseThrow());
  }

  private static String counted(Interval count) {
    return count.low() == count.high()
        ? text("%.0f %s", count.low(), count.low() == 1 ? "peak" : "peaks")
        : text("%.0f to %.0f peaks", count.low(), count.high());
  }

  /** Asked where there is anything that can be reversed against anything else. */
  Optional<Check> polarity(Check peaks) {
    if (evidence.apart()) {
      return Optional.of(
          undecided(
              "drivers in separate spaces show the same curve whichever way they are wired",
              POP_TEST));
    }
    if (evidence.loneWithCoils()) {
      return Optional.of(coilsOfOne(peaks));
    }
    if (evidence.shared()) {
      return Optional.of(
          evidence.plan().kind() == Kind.VENTED ? sharedVented(peaks) : sharedSealed(peaks));
    }
    return Optional.empty();
  }

  private Check coilsOfOne(Check peaks) {
    if (evidence.peakCount().low() >= 1 && peaks.decision() != Decision.UNDECIDED) {
      return passed(
          "the cone resonates, so the coils of the driver do not work against each other");
    }
    return undecided(
        "no peak shows that the coils of the driver work together",
        "Swap the leads of one coil and sweep again; " + BenchDoubt.lower(POP_TEST));
  }

  private Check sharedVented(Check peaks) {
    String swap = "Swap the leads of one driver and sweep again. " + POP_TEST;
    if (peaks.decision() != Decision.PASS) {
      return undecided("the curve does not show drivers that move the same air together", swap);
    }
    if (!(evidence.features().tuningHz() instanceof Found<Estimate>)) {
      return undecided("the two peaks are not those of one vented box", swap);
    }
    if (evidence.extraShare() > Evidence.EXTRA_SHARE) {
      return undecided(
          text(
              "a third resonance holds %.0f %% of the whole, more than unequal drivers make",
              100 * evidence.extraShare()),
          swap);
    }
    Optional<String> damped = damped();
    if (damped.isPresent()) {
      return undecided(damped.get(), swap);
    }
    Optional<Interval> own = evidence.ownResonanceHz();
    Optional<Implied> implied = evidence.implied();
    if (own.isPresent() && implied.isPresent() && !own.get().contains(implied.get().ownHz())) {
      return undecided(
          text(
              "the peaks imply drivers of %s Hz, and those planned have %s",
              Checks.number(implied.get().ownHz()), Checks.range(own.get(), "Hz")),
          swap);
    }
    boolean close = implied.isEmpty() || implied.get().compliance() < Evidence.LEAST_COMPLIANCE;
    if (close && evidence.plan().drivers().size() > 2) {
      return undecided(
          "the two peaks stand as close as in a very large box, or in one with a reversed driver"
              + " among the others",
          swap);
    }
    return passed(
        "the drivers move the air of the vent together: two peaks and a dip between them");
  }

  private Check sharedSealed(Check peaks) {
    String swap =
        "Swap the leads of one driver and sweep again: the right way gives the higher peak. "
            + POP_TEST;
    Optional<Interval> own = evidence.ownResonanceHz();
    if (peaks.decision() != Decision.PASS || evidence.extraShare() > Evidence.EXTRA_SHARE) {
      return undecided("the curve is not that of drivers that compress one air together", swap);
    }
    Optional<String> damped = damped();
    if (damped.isPresent()) {
      return undecided(damped.get(), swap);
    }
    if (own.isEmpty()) {
      return undecided(
          "the plan does not say the drivers' own resonance, so a reversed driver, which would"
              + " resonate there, cannot be told",
          swap + " Or write the drivers' resonance into the plan.");
    }
    if (!(evidence.features().mainResonanceHz() instanceof Found<Estimate> found)) {
      return undecided("the resonance could not be fitted", swap);
    }
    Interval seen = found.value().interval();
    if (seen.low() <= own.get().high()) {
      return undecided(
          text(
              "the box resonates at %s Hz, which the drivers alone might (%s); a reversed driver"
                  + " looks so",
              Checks.number(found.value().value()), Checks.range(own.get(), "Hz")),
          swap);
    }
    return passed(
        text(
            "the box resonates at %s Hz, above what the drivers alone would (%s): they compress the"
                + " air together",
            Checks.number(found.value().value()), Checks.range(own.get(), "Hz")));
  }

  /** Limits for the peak's height do not decide this: a loose one lets such a fault through. */
  private Optional<String> damped() {
    if (!evidence.mayHideAsDamping()) {
      return Optional.empty();
    }
    return evidence
        .smallestPeakRatio()
        .filter(ratio -> ratio < Evidence.LEAST_LIVELY_PEAK)
        .map(
            ratio ->
                text(
                    "a peak of only %s times the DC resistance may be a coil or a driver that works"
                        + " against the others; at least %s rules that out",
                    Checks.number(ratio), Checks.number(Evidence.LEAST_LIVELY_PEAK)));
  }

  private static Check passed(String because) {
    Interval one = new Interval(1, 1);
    return new Check(
        "polarity",
        "Relative polarity",
        Decision.PASS,
        Outcome.found(new Reading(1, one, "working together")),
        Optional.of(one),
        capital(because) + ".",
        Optional.empty());
  }

  private static Check undecided(String because, String test) {
    return new Check(
        "polarity",
        "Relative polarity",
        Decision.UNDECIDED,
        Outcome.none(because),
        Optional.empty(),
        capital(because) + ".",
        Optional.of(test));
  }

  private static String capital(String sentence) {
    return sentence.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + sentence.substring(1);
  }
}
