package conewise.analysis.model;

/** A current as a sum of loop currents: one factor for each loop. */
final class LoopVector {
  private final double[] factor;

  LoopVector(double[] factor) {
    this.factor = factor.clone();
  }

  double at(int loop) {
    return factor[loop];
  }

  LoopVector plus(double times, LoopVector other) {
    double[] sum = factor.clone();
    for (int i = 0; i < sum.length; i++) {
      sum[i] += times * other.factor[i];
    }
    return new LoopVector(sum);
  }

  /** The current, of one part of the loops' complex currents. */
  double sum(double[] loops) {
    double sum = 0;
    for (int i = 0; i < factor.length; i++) {
      sum += factor[i] * loops[i];
    }
    return sum;
  }
}
