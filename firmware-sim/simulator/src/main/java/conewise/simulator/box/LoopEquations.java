package conewise.simulator.box;

import conewise.simulator.dynamics.EquationSheet;
import conewise.simulator.dynamics.Expression;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * The rule of voltages around a set of loops: L i' + R i + (sections) + back = 0, written onto a
 * sheet.
 *
 * <p>Where L is singular (loops without inductance) its eigenvectors split the currents into those
 * that are states and those that follow at once: i = P b + N a, with L N = 0; then N'R N a = -N'(R
 * P b + back) and P'L P b' = -P'(R i + back).
 */
final class LoopEquations {
  private static final double NO_INDUCTANCE = 1e-11;
  private static final double SAME = 1e-12;

  /** A lossy section: its corner, its strength and the loops that it links. */
  private static final class Section {
    private final double cornerPerSecond;
    private final double[] loops;
    private double ohm;

    private Section(double cornerPerSecond, double ohm, double[] loops) {
      this.cornerPerSecond = cornerPerSecond;
      this.ohm = ohm;
      this.loops = loops;
    }
  }

  private final EquationSheet sheet;
  private final int loops;
  private final double[][] resistance;
  private final double[][] inductance;
  private final Expression[] back;
  private final List<Section> sections = new ArrayList<>();
  private final List<Expression> slowStates = new ArrayList<>();

  LoopEquations(EquationSheet sheet, int loops) {
    this.sheet = sheet;
    this.loops = loops;
    this.resistance = new double[loops][loops];
    this.inductance = new double[loops][loops];
    this.back = new Expression[loops];
    Arrays.fill(back, Expression.ZERO);
  }

  void addResistance(double ohm, double[] current) {
    addSquare(resistance, ohm, current);
  }

  void addInductance(double henry, double[] current) {
    addSquare(inductance, henry, current);
  }

  /** Adds a voltage that opposes a current. */
  void addBack(double[] current, double factor, Expression volt) {
    for (int k = 0; k < loops; k++) {
      back[k] = back[k].plus(factor * current[k], volt);
    }
  }

  /** Adds a lossy inductance; sections of one corner that link the same loops become one. */
  void addInductance(Inductance chain, double share, double[] current) {
    if (share == 0 || Arrays.stream(current).allMatch(each -> each == 0)) {
      return;
    }
    addInductance(share * chain.seriesHenry(), current);
    for (Inductance.Section each : chain.sections()) {
      double corner = each.ohm() / each.henry();
      double ohm = share * each.ohm();
      addResistance(ohm, current);
      double ratio = 0;
      Section match = null;
      for (Section known : sections) {
        double candidate = ratio(current, known.loops);
        if (candidate != 0 && Math.abs(corner / known.cornerPerSecond - 1) < SAME) {
          match = known;
          ratio = candidate;
        }
      }
      if (match == null) {
        sections.add(new Section(corner, ohm, current));
      } else {
        match.ohm += ratio * ratio * ohm;
      }
    }
  }

  /** The factor that makes one row the other; 0 if there is none. */
  private static double ratio(double[] row, double[] other) {
    double ratio = 0;
    for (int k = 0; k < row.length; k++) {
      if (other[k] != 0) {
        ratio = row[k] / other[k];
      }
    }
    for (int k = 0; k < row.length; k++) {
      if (Math.abs(row[k] - ratio * other[k]) > SAME) {
        return 0;
      }
    }
    return ratio;
  }

  private static void addSquare(double[][] matrix, double factor, double[] row) {
    for (int i = 0; i < row.length; i++) {
      for (int k = 0; k < row.length; k++) {
        matrix[i][k] += factor * row[i] * row[k];
      }
    }
  }

  /** Writes the equations and returns the loop currents. */
  Expression[] solve() {
    if (loops == 0) {
      return new Expression[0];
    }
    List<Expression> lag = new ArrayList<>();
    for (Section section : sections) {
      Expression state = sheet.state("section" + lag.size());
      lag.add(state);
      addBack(section.loops, -section.ohm, state);
    }
    EigenDecomposition eigen = new EigenDecomposition(MatrixUtils.createRealMatrix(inductance));
    double[] henry = eigen.getRealEigenvalues();
    double largest = Arrays.stream(henry).max().orElse(0);
    List<double[]> slow = new ArrayList<>();
    List<double[]> instant = new ArrayList<>();
    List<Double> slowHenry = new ArrayList<>();
    for (int k = 0; k < loops; k++) {
      boolean inductive = henry[k] > NO_INDUCTANCE * largest && largest > 0;
      (inductive ? slow : instant).add(eigen.getEigenvector(k).toArray());
      if (inductive) {
        slowHenry.add(henry[k]);
      }
    }
    Expression[] current = currents(slow, instant);
    for (int s = 0; s < slow.size(); s++) {
      Expression sum = Expression.ZERO;
      for (int row = 0; row < loops; row++) {
        sum = sum.plus(-slow.get(s)[row] / slowHenry.get(s), drop(row, current));
      }
      sheet.derivative(slowStates.get(s), sum);
    }
    for (int s = 0; s < lag.size(); s++) {
      Section section = sections.get(s);
      sheet.derivative(
          lag.get(s), sum(section.loops, current).minus(lag.get(s)).times(section.cornerPerSecond));
    }
    return current;
  }

  private Expression[] currents(List<double[]> slow, List<double[]> instant) {
    Expression[] current = new Expression[loops];
    Arrays.fill(current, Expression.ZERO);
    for (double[] direction : slow) {
      Expression state = sheet.state("current" + slowStates.size());
      slowStates.add(state);
      addAlong(current, direction, state);
    }
    if (instant.isEmpty()) {
      return current;
    }
    RealMatrix n = MatrixUtils.createRealMatrix(instant.toArray(double[][]::new));
    RealMatrix r = MatrixUtils.createRealMatrix(resistance);
    RealMatrix inverse =
        new LUDecomposition(n.multiply(r).multiply(n.transpose())).getSolver().getInverse();
    Expression[] along = new Expression[instant.size()];
    for (int k = 0; k < along.length; k++) {
      along[k] = Expression.ZERO;
      for (int row = 0; row < loops; row++) {
        along[k] = along[k].plus(-instant.get(k)[row], drop(row, current));
      }
    }
    Expression[] slowOnly = current.clone();
    for (int k = 0; k < along.length; k++) {
      Expression amount = Expression.ZERO;
      for (int j = 0; j < along.length; j++) {
        amount = amount.plus(inverse.getEntry(k, j), along[j]);
      }
      addAlong(slowOnly, instant.get(k), amount);
    }
    return slowOnly;
  }

  private Expression drop(int row, Expression[] current) {
    return sum(resistance[row], current).plus(back[row]);
  }

  private static void addAlong(Expression[] current, double[] direction, Expression amount) {
    for (int k = 0; k < current.length; k++) {
      current[k] = current[k].plus(direction[k], amount);
    }
  }

  static Expression sum(double[] factors, Expression[] values) {
    Expression sum = Expression.ZERO;
    for (int k = 0; k < factors.length; k++) {
      sum = sum.plus(factors[k], values[k]);
    }
    return sum;
  }
}
