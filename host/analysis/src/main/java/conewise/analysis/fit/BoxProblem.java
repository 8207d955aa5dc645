package conewise.analysis.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * All sweeps of a fit as one sum of squares: whitened residuals, then what is known beforehand of
 * the unknowns and of the scale that all sweeps share.
 */
final class BoxProblem implements LeastSquares.Problem {
  /** Coordinates stay off their limits by this share of the span. */
  private static final double EDGE = 1e-3;

  /** Against what a sweep tells of an unknown, some 10 to 1000, this is nothing. */
  private static final double LEAST_PULL = 1e-3;

  private final List<Sweep> measured;
  private final List<SweepEquations> sweeps;
  private final List<Unknown> unknowns;
  private final List<Limited> limits;
  private final double scaleSpread;

  /** How the sweeps are weighed; to be set before anything is computed of them. */
  private List<Whitening> whitening = List.of();

  /** Where what is known beforehand lies: as stated, or as a bootstrap drew it. */
  private double[] centre;

  BoxProblem(List<Sweep> sweeps, List<Unknown> unknowns) {
    measured = List.copyOf(sweeps);
    this.unknowns = List.copyOf(unknowns);
    this.sweeps = sweeps.stream().map(sweep -> new SweepEquations(sweep, unknowns)).toList();
    limits = unknowns.stream().map(each -> new Limited(each.low(), each.high())).toList();
    scaleSpread = sweeps.stream().mapToDouble(s -> s.curve().scaleUncertainty()).max().orElse(0);
    centre = centres();
  }

  /** Where the coordinates are expected. */
  double[] centres() {
    double[] expected = new double[unknowns.size() + 1];
    for (int k = 0; k < unknowns.size(); k++) {
      expected[k] = unknowns.get(k).centre();
    }
    return expected;
  }

  /** The same but where coordinates are given by name. */
  double[] centres(Map<String, Double> byName) {
    double[] named = centres();
    for (int k = 0; k < unknowns.size(); k++) {
      named[k] = byName.getOrDefault(unknowns.get(k).name(), named[k]);
    }
    return held(named);
  }

  /** What remains of a coordinate over where it is expected. */
  double offCentre(double[] coordinates, int k) {
    return coordinates[k] - centre[k];
  }

  /** Weighs the sweeps by a discrepancy, with the model as some coordinates have it. */
  void set(Discrepancy discrepancy, double[] coordinates) {
    whitening =
        sweeps.stream()
            .map(sweep -> sweep.whitening(discrepancy, sweep.drift(coordinates)))
            .toList();
  }

  /** Weighs the sweeps by errors that do not go with the model. */
  void set(SharedErrors errors) {
    List<Whitening> filters = new ArrayList<>();
    for (int s = 0; s < sweeps.size(); s++) {
      filters.add(sweeps.get(s).whitening(errors.discrepancy(), errors.drifts().get(s)));
    }
    whitening = filters;
  }

  /** The logarithm of the determinant of the covariance of all that was measured. */
  double logDeterminant() {
    double sum = 0;
    for (int s = 0; s < sweeps.size(); s++) {
      sum += sweeps.get(s).logDeterminant(whitening.get(s));
    }
    return sum;
  }

  /** Draws anew what is known beforehand, about given coordinates. */
  void drawPriors(double[] about, Random random) {
    centre = about.clone();
    for (int k = 0; k < parameters(); k++) {
      centre[k] += Double.isInfinite(spread(k)) ? 0 : spread(k) * random.nextGaussian();
    }
  }

  List<Sweep> measured() {
    return measured;
  }

  List<SweepEquations> sweeps() {
    return sweeps;
  }

  List<Unknown> unknowns() {
    return unknowns;
  }

  /** Unknowns, and the scale where it is one. */
  int parameters() {
    return unknowns.size() + (scaleSpread > 0 ? 1 : 0);
  }

  @Override
  public int rows() {
    return sweeps.stream().mapToInt(SweepEquations::rows).sum() + parameters();
  }

  /** Coordinates of free parameters, the scale's last. */
  double[] coordinates(double[] free) {
    double[] coordinates = new double[unknowns.size() + 1];
    for (int k = 0; k < unknowns.size(); k++) {
      coordinates[k] = limits.get(k).coordinate(free[k]);
    }
    coordinates[unknowns.size()] = scaleSpread > 0 ? free[unknowns.size()] : 0;
    return coordinates;
  }

  double[] free(double[] coordinates) {
    double[] free = new double[parameters()];
    for (int k = 0; k < free.length; k++) {
      free[k] = k < unknowns.size() ? limits.get(k).free(coordinates[k]) : coordinates[k];
    }
    return free;
  }

  boolean isAtLimit(int unknown, double coordinate) {
    return limits.get(unknown).isAtLimit(coordinate);
  }

  @Override
  public void evaluate(double[] free, double[] residuals, double[][] slopes) {
    double[] coordinates = coordinates(free);
    double[] byFree = new double[free.length];
    for (int k = 0; k < free.length; k++) {
      byFree[k] = slope(k, free[k]);
    }
    int row = 0;
    for (int s = 0; s < sweeps.size(); s++) {
      Columns columns = whitened(s, coordinates, whitening.get(s));
      columns.write(residuals, slopes, row, byFree);
      row += columns.residuals().length;
    }
    for (int k = 0; k < free.length; k++, row++) {
      residuals[row] = offCentre(coordinates, k) * pull(k);
      slopes[row][k] = byFree[k] * pull(k);
    }
  }

  private double slope(int k, double free) {
    return k < limits.size() ? limits.get(k).slope(free) : 1;
  }

  /** Standard deviation, known beforehand, of a coordinate. */
  double spread(int k) {
    return k < unknowns.size() ? unknowns.get(k).spread() : scaleSpread;
  }

  /** One over the spread; a trace where nothing is known, so that no fit drifts untold. */
  private double pull(int k) {
    return Math.max(LEAST_PULL, 1 / spread(k));
  }

  /** True where what is known beforehand of a coordinate is a plan's figure. */
  boolean isPlanned(int k) {
    return k < unknowns.size() && !unknowns.get(k).inherent();
  }

  private Columns whitened(int s, double[] coordinates, Whitening filter) {
    Columns columns = raw(s, coordinates);
    columns.whiten(sweeps.get(s), filter);
    return columns;
  }

  /** Residuals and slopes of one sweep by the coordinates, not whitened. */
  Columns raw(int s, double[] coordinates) {
    SweepEquations sweep = sweeps.get(s);
    Columns columns = new Columns(sweep.rows(), unknowns.size() + 1);
    sweep.evaluate(coordinates, columns.residuals(), columns.slopes());
    return columns;
  }

  List<Columns> raw(double[] coordinates) {
    List<Columns> all = new ArrayList<>();
    for (int s = 0; s < sweeps.size(); s++) {
      all.add(raw(s, coordinates));
    }
    return all;
  }

  /** True where a coordinate is as near its limit as it may be, and would go on. */
  boolean leans(int k, double coordinate, double towards) {
    if (k >= unknowns.size()) {
      return false;
    }
    Unknown unknown = unknowns.get(k);
    double edge = EDGE * (unknown.high() - unknown.low());
    return (coordinate <= unknown.low() + edge && towards < 0)
        || (coordinate >= unknown.high() - edge && towards > 0);
  }

  /** Coordinates held just within the unknowns' limits. */
  double[] held(double[] coordinates) {
    double[] held = coordinates.clone();
    for (int k = 0; k < unknowns.size(); k++) {
      Unknown unknown = unknowns.get(k);
      double edge = EDGE * (unknown.high() - unknown.low());
      held[k] = Math.min(unknown.high() - edge, Math.max(unknown.low() + edge, held[k]));
    }
    return held;
  }

  /**
   * The normal equations by the coordinates, what is known beforehand included.
   *
   * @param information receives the products of slopes, over zeros
   * @param gradient receives the products of slopes and residuals, over zeros
   * @return the sum of squares
   */
  double normalEquations(double[] coordinates, double[][] information, double[] gradient) {
    double sum = 0;
    for (int s = 0; s < sweeps.size(); s++) {
      Columns columns = raw(s, coordinates);
      columns.whitenProducts(sweeps.get(s), whitening.get(s));
      columns.addInformation(information);
      sum += columns.addGradient(gradient);
    }
    for (int k = 0; k < parameters(); k++) {
      double weight = 1 / (spread(k) * spread(k));
      double off = offCentre(coordinates, k);
      information[k][k] += weight;
      gradient[k] += weight * off;
      sum += weight * off * off;
    }
    return sum;
  }

  /** The sum of squares, without slopes. */
  double cost(double[] coordinates) {
    double sum = 0;
    for (double each : residuals(coordinates)) {
      sum += each * each;
    }
    return sum;
  }

  /** All residuals, whitened, what is known beforehand included. */
  double[] residuals(double[] coordinates) {
    double[] residuals = new double[rows()];
    int row = 0;
    for (int s = 0; s < sweeps.size(); s++) {
      double[] own = new double[sweeps.get(s).rows()];
      sweeps.get(s).evaluate(coordinates, own, null);
      sweeps.get(s).whiten(whitening.get(s), own);
      System.arraycopy(own, 0, residuals, row, own.length);
      row += own.length;
    }
    for (int k = 0; k < parameters(); k++) {
      residuals[row++] = offCentre(coordinates, k) * pull(k);
    }
    return residuals;
  }

  /** Their slopes by the coordinates: a row for each residual. */
  double[][] slopes(double[] coordinates) {
    double[][] slopes = new double[rows()][parameters()];
    double[] one = new double[parameters()];
    Arrays.fill(one, 1);
    int row = 0;
    for (int s = 0; s < sweeps.size(); s++) {
      Columns columns = whitened(s, coordinates, whitening.get(s));
      columns.write(new double[rows()], slopes, row, one);
      row += columns.residuals().length;
    }
    for (int k = 0; k < parameters(); k++) {
      slopes[row++][k] = pull(k);
    }
    return slopes;
  }

  /**
   * What the sweeps tell of the coordinates: the Fisher information (S. D. Silvey, Statistical
   * Inference, 1970), without what is planned. What is inherent counts with it, and so does what
   * the calibration says of the scale.
   */
  RealMatrix information(double[] coordinates) {
    double[][] sum = new double[parameters()][parameters()];
    for (int s = 0; s < sweeps.size(); s++) {
      Columns columns = raw(s, coordinates);
      columns.whitenProducts(sweeps.get(s), whitening.get(s));
      columns.addInformation(sum);
    }
    for (int k = 0; k < sum.length; k++) {
      sum[k][k] += isPlanned(k) ? 0 : 1 / (spread(k) * spread(k));
    }
    return new Array2DRowRealMatrix(sum, false);
  }
}
