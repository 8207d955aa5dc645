package conewise.analysis.fit;

import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * What the sweeps alone tell, without what was known beforehand: the rank of the information
 * matrix, and the sets of unknowns that may move together without the curve showing it (Rothenberg,
 * Econometrica 39, 1971).
 */
final class Identifiability {
  /**
   * A direction along which the coordinates' standard deviation is more than this is not told: the
   * sweeps leave a factor of one and a half open, up or down.
   */
  private static final double MOST_DEVIATION = 0.2;

  /** Unknowns with at least this share of a direction's largest part belong to its set. */
  private static final double MEMBER = 0.2;

  private static final double TINY = 1e-9;

  private final List<Unknown> unknowns;
  private final double[] deviation;
  private final RealVector[] direction;

  private Identifiability(List<Unknown> unknowns, EigenDecomposition eigen) {
    this.unknowns = unknowns;
    int size = eigen.getRealEigenvalues().length;
    deviation = new double[size];
    direction = new RealVector[size];
    for (int i = 0; i < size; i++) {
      deviation[i] = 1 / Math.sqrt(Math.max(TINY, eigen.getRealEigenvalue(i)));
      direction[i] = eigen.getEigenvector(i);
    }
  }

  static Identifiability of(List<Unknown> unknowns, RealMatrix information) {
    return new Identifiability(unknowns, new EigenDecomposition(information));
  }

  /** How many independent combinations of the unknowns the sweeps tell. */
  int rank() {
    return (int) IntStream.range(0, deviation.length).filter(i -> !isOpen(i)).count();
  }

  private boolean isOpen(int i) {
    return deviation[i] > MOST_DEVIATION;
  }

  /**
   * The sets of unknowns that may move together unseen, each by its names. The open directions are
   * first combined so that each has an unknown of its own (elimination with complete pivoting),
   * which keeps the sets small.
   */
  List<List<String>> openSets() {
    double[][] rows =
        IntStream.range(0, deviation.length)
            .filter(this::isOpen)
            .mapToObj(i -> direction[i].toArray())
            .toArray(double[][]::new);
    boolean[] done = new boolean[deviation.length];
    for (int r = 0; r < rows.length; r++) {
      eliminate(rows, r, done);
    }
    return java.util.Arrays.stream(rows).map(this::members).toList();
  }

  /** Brings the largest entry of the rows left to row r, and clears its column elsewhere. */
  private static void eliminate(double[][] rows, int r, boolean[] done) {
    int row = r;
    int column = -1;
    for (int i = r; i < rows.length; i++) {
      for (int k = 0; k < rows[i].length; k++) {
        if (!done[k] && (column < 0 || Math.abs(rows[i][k]) > Math.abs(rows[row][column]))) {
          row = i;
          column = k;
        }
      }
    }
    double[] pivot = rows[row];
    rows[row] = rows[r];
    rows[r] = pivot;
    done[column] = true;
    for (double[] other : rows) {
      double factor = other == pivot ? 0 : other[column] / pivot[column];
      for (int k = 0; k < other.length && factor != 0; k++) {
        other[k] -= factor * pivot[k];
      }
    }
  }

  private List<String> members(double[] row) {
    double largest = new ArrayRealVector(row, false).getLInfNorm();
    return IntStream.range(0, Math.min(unknowns.size(), row.length))
        .filter(k -> Math.abs(row[k]) >= MEMBER * largest)
        .boxed()
        .sorted((a, b) -> Double.compare(Math.abs(row[b]), Math.abs(row[a])))
        .map(k -> unknowns.get(k).name())
        .toList();
  }

  /** How far the unknowns of a set are open: the root of the sum of their variances. */
  double deviationOf(List<String> set) {
    double sum = 0;
    for (int k = 0; k < unknowns.size(); k++) {
      if (set.contains(unknowns.get(k).name())) {
        double[] gradient = new double[deviation.length];
        gradient[k] = 1;
        sum += Math.pow(deviationAlone(gradient), 2);
      }
    }
    return Math.sqrt(sum);
  }

  /** The standard deviation that the sweeps alone leave of a function of given gradient. */
  private double deviationAlone(double[] gradient) {
    double sum = 0;
    for (int i = 0; i < deviation.length; i++) {
      sum +=
          Math.pow(direction[i].dotProduct(new ArrayRealVector(gradient, false)) * deviation[i], 2);
    }
    return Math.sqrt(sum);
  }

  /** The names of all unknowns that share an open direction with a function of given gradient. */
  List<String> openWith(double[] gradient) {
    TreeSet<String> names = new TreeSet<>();
    double norm = new ArrayRealVector(gradient, false).getNorm();
    for (int i = 0; i < deviation.length; i++) {
      double part = direction[i].dotProduct(new ArrayRealVector(gradient, false));
      if (isOpen(i) && Math.abs(part) > MEMBER * MEMBER * norm) {
        names.addAll(members(direction[i].toArray()));
      }
    }
    return List.copyOf(names);
  }
}
