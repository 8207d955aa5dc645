package conewise.analysis.diagnosis;

import conewise.analysis.fit.Plausibility;

/** A hypothesis with how well the sweeps bear it out. */
record Weighed(Hypothesis hypothesis, Plausibility plausibility) {

  /** Logarithm of its odds after the measurement, over a constant that all share. */
  double logOdds() {
    return hypothesis.logPrior() + plausibility.logEvidence();
  }
}
