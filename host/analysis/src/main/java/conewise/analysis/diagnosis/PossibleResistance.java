package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Which DC resistances a box of a plan can show, be it good or have any one of the faults that are
 * looked for, or two of known size. What lies outside of them is another plan's box, unless two
 * rare faults met of which one may be of any size (a bad joint, something beside the box): by the
 * usual rates that is hundreds of times rarer than a wrong job.
 *
 * @param box the plan's name
 * @param planned what a good box may read, in ohm
 * @param possible all that may be read, in rising order, in ohm
 */
public record PossibleResistance(String box, Interval planned, List<Interval> possible) {
  /** So many standard deviations of each part's spread are still taken for possible. */
  private static final double DEVIATIONS = 3;

  private static final Set<FaultKind> OF_ANY_SIZE =
      EnumSet.of(FaultKind.RESISTANCE_ADDED, FaultKind.SOURCE_CONNECTED);

  /** Coils that are cold from the van or warm from a test, beside what the plan allows. */
  private static final double WARMTH = 0.08;

  private static final double COVERAGE = 2;

  public PossibleResistance {
    possible = List.copyOf(possible);
  }

  /** Of a plan with the usual faults. */
  public static PossibleResistance of(PlannedBox plan) {
    Candidate good = new Candidate(plan.model(), plan.unknowns());
    List<Fault> faults =
        Hypotheses.faultsOf(plan, Rates.USUAL).stream()
            .filter(fault -> fault.kind() != FaultKind.OTHER_BOX)
            .toList();
    Interval whole = interval(good);
    List<Interval> all = new ArrayList<>(List.of(whole));
    List<Fault> seen = new ArrayList<>();
    for (Fault fault : faults) {
      Interval with = interval(fault.change().apply(good));
      if (!with.equals(whole)) {
        all.add(with);
        if (!OF_ANY_SIZE.contains(fault.kind())) {
          seen.add(fault);
        }
      }
    }
    for (Fault one : seen) {
      for (Fault other : seen) {
        if (one.goesWith(other)) {
          all.add(interval(other.change().apply(one.change().apply(good))));
        }
      }
    }
    double ohm = DirectResistance.ohm(plan.model());
    double arm = plan.demands().dcToleranceFraction() * ohm;
    Interval planned = plan.demands().dcResistanceOhm().orElse(new Interval(ohm - arm, ohm + arm));
    return new PossibleResistance(plan.name(), planned, merged(all));
  }

  /** The resistance rises with that of each part, so its ends are where all parts are at theirs. */
  private static Interval interval(Candidate candidate) {
    double low = ohm(candidate, -1) / (1 + WARMTH);
    double high = ohm(candidate, 1) * (1 + WARMTH);
    return new Interval(low, high);
  }

  private static double ohm(Candidate candidate, int side) {
    return DirectResistance.ohm(
        candidate.model().circuit(),
        coil -> {
          Driver driver = candidate.model().driver(coil.driver());
          return driver.coils().get(coil.number() - 1).resistanceOhm()
              * factor(candidate, new Quantity(coil.driver(), Kind.COIL_RESISTANCE), side);
        },
        (Circuit.Resistance part) ->
            part.ohm() * factor(candidate, new Quantity(part.name(), Kind.RESISTANCE), side));
  }

  private static double factor(Candidate candidate, Quantity quantity, int side) {
    double coordinate = 0;
    for (Unknown unknown : candidate.unknowns()) {
      if (unknown.moves().contains(quantity)) {
        double end = unknown.centre() + side * DEVIATIONS * unknown.spread();
        coordinate += Math.max(unknown.low(), Math.min(unknown.high(), end));
      }
    }
    return Math.exp(coordinate);
  }

  private static List<Interval> merged(List<Interval> all) {
    List<Interval> sorted = new ArrayList<>(all);
    sorted.sort(Comparator.comparingDouble(Interval::low));
    List<Interval> merged = new ArrayList<>();
    for (Interval each : sorted) {
      int last = merged.size() - 1;
      if (last >= 0 && each.low() <= merged.get(last).high()) {
        Interval before = merged.get(last);
        merged.set(last, new Interval(before.low(), Math.max(before.high(), each.high())));
      } else {
        merged.add(each);
      }
    }
    return merged;
  }

  /**
   * Whether a box of the plan may read this.
   *
   * @param ohm what was read
   * @param relativeUncertainty its standard uncertainty over its value, the jig's scale included
   */
  public boolean allows(double ohm, double relativeUncertainty) {
    double low = ohm * (1 - COVERAGE * relativeUncertainty);
    double high = ohm * (1 + COVERAGE * relativeUncertainty);
    return possible.stream().anyMatch(each -> each.low() <= high && low <= each.high());
  }

  /** That what was read is no box of the plan. */
  public String refusal(double ohm) {
    return String.format(
        Locale.ROOT,
        "This is not box %s: its coils read %.1f ohm, %.1f to %.1f ohm expected.",
        box,
        ohm,
        planned.low(),
        planned.high());
  }
}
