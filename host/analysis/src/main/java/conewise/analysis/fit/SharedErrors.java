package conewise.analysis.fit;

import java.util.List;
import java.util.Map;

/**
 * What sweeps and models are taken to be off, the same for all boxes that are compared: were it
 * each box's own, the one with the least part to be off would win by that alone.
 */
public final class SharedErrors {
  private static final double PLAIN = 0.01;

  private final Discrepancy discrepancy;
  private final List<ModelDrift> drifts;

  SharedErrors(Discrepancy discrepancy, List<ModelDrift> drifts) {
    this.discrepancy = discrepancy;
    this.drifts = drifts;
  }

  /** Of sweeps of a box about which nothing is known: 1 % scattered and 1 % smooth. */
  public static SharedErrors plain(List<Sweep> sweeps) {
    return plain(sweeps, PLAIN);
  }

  /**
   * Of sweeps of a box about which nothing is known.
   *
   * @param off standard deviation relative to |Z|, of the scattered and of the smooth part
   */
  public static SharedErrors plain(List<Sweep> sweeps, double off) {
    return new SharedErrors(
        new Discrepancy(off, off, 0, 0), sweeps.stream().map(sweep -> ModelDrift.none()).toList());
  }

  /**
   * Of sweeps of a box that is about known: suspension and coil depart from their formulas as those
   * of this box may.
   *
   * @param coordinates by the unknowns' names
   */
  public static SharedErrors about(
      List<Sweep> sweeps,
      List<Unknown> unknowns,
      Map<String, Double> coordinates,
      Discrepancy discrepancy) {
    BoxProblem problem = new BoxProblem(sweeps, unknowns);
    double[] at = problem.centres(coordinates);
    return new SharedErrors(
        discrepancy, problem.sweeps().stream().map(sweep -> sweep.drift(at)).toList());
  }

  Discrepancy discrepancy() {
    return discrepancy;
  }

  List<ModelDrift> drifts() {
    return drifts;
  }
}
