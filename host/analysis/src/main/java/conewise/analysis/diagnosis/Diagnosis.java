package conewise.analysis.diagnosis;

import conewise.analysis.fit.Discrepancy;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;

/**
 * What may be the case with a box, most probable first. Each way in which it can be wrong, and each
 * two at once, is a box of its own, fitted to the sweeps within the plan's tolerances; its
 * probability is its evidence (see {@link conewise.analysis.fit.Plausibility}) times how often it
 * is met.
 *
 * @param findings with a probability of at least {@link #LEAST}, most probable first, at least one
 * @param discrepancy what the models were taken to be off
 */
public record Diagnosis(List<Finding> findings, Discrepancy discrepancy) {
  /** What is less probable is not told. */
  public static final double LEAST = 1e-4;

  public Diagnosis {
    findings = List.copyOf(findings);
    if (findings.isEmpty()) {
      throw new IllegalArgumentException("a diagnosis has at least 1 finding; it had 0");
    }
  }

  /** Weighs the usual faults with their usual rates. */
  public static Outcome<Diagnosis> of(PlannedBox plan, List<SweptState> sweeps) {
    return of(plan, sweeps, usualFaults(plan, Rates.USUAL));
  }

  /** Every fault that a planned box is taken to be able to have. */
  public static List<Fault> usualFaults(PlannedBox plan, Rates rates) {
    return Hypotheses.faultsOf(plan, rates);
  }

  /**
   * Weighs given faults.
   *
   * @param sweeps of one box, at least one, each in a state of its own
   * @param faults what it may have; also two at once
   * @return none where no box of the plan, good or bad, can be fitted
   */
  public static Outcome<Diagnosis> of(
      PlannedBox plan, List<SweptState> sweeps, List<Fault> faults) {
    Candidate planned = new Candidate(plan.model(), plan.unknowns());
    List<Weighed> left = new Weighing(new Hypotheses(planned, faults), sweeps).run();
    if (left.isEmpty()) {
      return Outcome.none("no box of this plan, good or bad, can be fitted to the curve");
    }
    return Outcome.found(
        new Diagnosis(probable(left), left.get(0).plausibility().fit().discrepancy()));
  }

  private static List<Finding> probable(List<Weighed> left) {
    double best = left.get(0).logOdds();
    double sum = left.stream().mapToDouble(each -> Math.exp(each.logOdds() - best)).sum();
    List<Finding> findings = new ArrayList<>();
    for (Weighed each : left) {
      double probability = Math.exp(each.logOdds() - best) / sum;
      if (probability >= LEAST) {
        findings.add(
            new Finding(
                each.hypothesis().alternatives(),
                probability,
                each.hypothesis().candidate(),
                each.plausibility().fit()));
      }
    }
    return findings;
  }

  /** The probability that the box is one of those that show what a good one shows. */
  public double probabilityOfGood() {
    return findings.stream().filter(Finding::mayBeGood).mapToDouble(Finding::probability).sum();
  }
}
