package conewise.analysis.fit;

import java.util.ArrayList;
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
   * sweeps leave a factor of about two open.
   */
  static final double MOST_DEVIATION = 0.35;

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

  /** The sets of unknowns that may move together unseen, each by its names, largest part first. */
  List<List<String>> openSets() {
    List<List<String>> sets = new ArrayList<>();
    for (int i = 0; i < deviation.length; i++) {
      if (isOpen(i)) {
        sets.add(members(i));
      }
    }
    return sets;
  }

  private List<String> members(int i) {
    double largest = direction[i].getLInfNorm();
    return IntStream.range(0, Math.min(unknowns.size(), direction[i].getDimension()))
        .filter(k -> Math.abs(direction[i].getEntry(k)) >= MEMBER * largest)
        .boxed()
        .sorted(
            (a, b) ->
                Double.compare(
                    Math.abs(direction[i].getEntry(b)), Math.abs(direction[i].getEntry(a))))
        .map(k -> unknowns.get(k).name())
        .toList();
  }

  /** The standard deviation of a function of given gradient, from the sweeps alone. */
  double deviationAlone(double[] gradient) {
    double sum = 0;
    for (int i = 0; i < deviation.length; i++) {
      double part = direction[i].dotProduct(new ArrayRealVector(gradient, false)) * deviation[i];
      sum += part * part;
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
        names.addAll(members(i));
      }
    }
    return List.copyOf(names);
  }
}
