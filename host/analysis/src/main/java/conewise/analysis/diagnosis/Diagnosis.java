package conewise.analysis.diagnosis;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/**
 * What may be the case with a box, most probable first. Each way in which it can be wrong, and each
 * two at once, is a box of its own, fitted to the sweeps within the plan's tolerances; its
 * probability is its evidence (see {@link conewise.analysis.fit.Plausibility}) times how often it
 * is met.
 *
 * @param planned the box as planned
 * @param findings with a probability of at least {@link #LEAST}, most probable first, at least one
 */
public record Diagnosis(Candidate planned, List<Finding> findings) {
  /** What is less probable is not told. */
  public static final double LEAST = 1e-4;

  /** A Bayes factor from which evidence is strong. */
  private static final double STRONG_EVIDENCE = 20;

  /** An alternative that has less than this part of the likeliest one's probability is not told. */
  private static final double LEAST_SHARE = 2e-3;

  public Diagnosis {
    findings = List.copyOf(findings);
    if (findings.isEmpty()) {
      throw new IllegalArgumentException("a diagnosis has at least 1 finding; it had 0");
    }
  }

  /** Weighs the usual faults with their usual rates. */
  public static Outcome<Diagnosis> of(PlannedBox plan, List<SweptState> sweeps) {
    return of(plan, sweeps, usualFaults(plan, Rates.USUAL), List.of());
  }

  /** Every fault that a planned box is taken to be able to have. */
  public static List<Fault> usualFaults(PlannedBox plan, Rates rates) {
    return Hypotheses.faultsOf(plan, rates);
  }

  /**
   * How many boxes that differ at the terminals a good one and given single faults come to: what is
   * weighed before two faults at once.
   */
  public static int distinct(PlannedBox plan, List<Fault> faults) {
    return new Hypotheses(new Candidate(plan.model(), plan.unknowns()), faults).singles().size();
  }

  /**
   * Weighs given faults.
   *
   * @param sweeps of one box, at least one, each in a state of its own
   * @param faults what it may have; also two at once
   * @param observations what was seen of it beside the sweeps
   * @return none where no box of the plan, good or bad, can be fitted
   */
  public static Outcome<Diagnosis> of(
      PlannedBox plan,
      List<SweptState> sweeps,
      List<Fault> faults,
      List<Observation> observations) {
    Candidate planned = new Candidate(plan.model(), plan.unknowns());
    List<Weighed> left = new Weighing(new Hypotheses(planned, faults), sweeps).run();
    if (left.isEmpty()) {
      return Outcome.none("no box of this plan, good or bad, can be fitted to the curve");
    }
    return !left.get(0).plausibility().settled()
        ? Outcome.none("the fit of what is most probable did not settle")
        : Outcome.found(new Diagnosis(planned, probable(planned, left, observations)));
  }

  private static List<Finding> probable(
      Candidate planned, List<Weighed> left, List<Observation> observations) {
    double best = left.get(0).logOdds();
    List<Finding> findings = new ArrayList<>();
    double sum = 0;
    for (Weighed each : left) {
      List<Alternative> alternatives = new ArrayList<>();
      for (Hypothesis.Way way : each.hypothesis().ways()) {
        double odds = Math.exp(way.logOdds() + each.plausibility().logEvidence() - best);
        Alternative alternative = new Alternative(way.faults(), odds);
        for (Observation observation : observations) {
          odds *= observation.likelihood(alternative.of(planned));
        }
        alternatives.add(new Alternative(way.faults(), odds));
        sum += odds;
      }
      findings.add(
          new Finding(
              alternatives,
              Math.exp(each.hypothesis().logPrior()),
              each.hypothesis().candidate(),
              each.plausibility().fit(),
              each.plausibility().coordinates()));
    }
    double total = sum;
    return findings.stream()
        .map(each -> normalised(each, total))
        .filter(each -> each.probability() >= LEAST)
        .sorted(Comparator.comparingDouble(each -> -each.probability()))
        .toList();
  }

  private static Finding normalised(Finding finding, double total) {
    List<Alternative> alternatives =
        finding.alternatives().stream()
            .map(each -> new Alternative(each.faults(), each.probability() / total))
            .sorted(Comparator.comparingDouble(each -> -each.probability()))
            .toList();
    double least = LEAST_SHARE * alternatives.get(0).probability();
    return new Finding(
        alternatives.stream().filter(each -> each.probability() >= least).toList(),
        finding.priorOdds(),
        finding.candidate(),
        finding.fit(),
        finding.coordinates());
  }

  /**
   * The likeliest finding and all that the sweeps and observations hold no strong evidence against:
   * a Bayes factor below 20 (the scale of R. E. Kass and A. E. Raftery, J. Am. Stat. Assoc. 90,
   * 1995), however seldom they are met.
   */
  public List<Finding> undistinguished() {
    double least = findings.get(0).support() / STRONG_EVIDENCE;
    return findings.stream().filter(each -> each.support() >= least).toList();
  }

  /** The probability of all alternatives that have a fault of some kinds. */
  public double probabilityOf(java.util.function.Predicate<Alternative> asked) {
    return findings.stream()
        .flatMap(finding -> finding.alternatives().stream())
        .filter(asked)
        .mapToDouble(Alternative::probability)
        .sum();
  }

  /** The drivers' cones that a pop test can show, by what they should do. */
  public Map<String, Motion> plannedMotion() {
    return Motion.of(planned.model());
  }
}
