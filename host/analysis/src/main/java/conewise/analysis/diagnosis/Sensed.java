package conewise.analysis.diagnosis;

import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * How a person grades a level into three: by two thresholds, each missed a little now and then, as
 * a normal law has it, and by mistake altogether once in a while.
 *
 * @param lowDecibel below is the lowest grade
 * @param highDecibel above is the highest grade
 * @param deviationDecibel how far a grading strays, as a standard deviation
 * @param mistaken the share that is mistaken altogether, and falls on any grade
 */
record Sensed(double lowDecibel, double highDecibel, double deviationDecibel, double mistaken) {
  private static final double GRADES = 3;

  double low(double decibel) {
    return kept(below(lowDecibel, decibel));
  }

  double high(double decibel) {
    return kept(1 - below(highDecibel, decibel));
  }

  double middle(double decibel) {
    return kept(below(highDecibel, decibel) - below(lowDecibel, decibel));
  }

  private double below(double threshold, double decibel) {
    return new NormalDistribution(null, decibel, deviationDecibel).cumulativeProbability(threshold);
  }

  private double kept(double probability) {
    return (1 - mistaken) * probability + mistaken / GRADES;
  }

  /** A ratio of amplitudes in decibel, at least -120. */
  static double decibel(double amplitude, double reference) {
    double floor = 1e-6;
    return 20 * Math.log10(Math.max(floor, amplitude / reference));
  }
}
