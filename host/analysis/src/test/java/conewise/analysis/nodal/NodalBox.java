package conewise.analysis.nodal;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;

/**
 * A box for tests, solved by node and mesh equations (Kirchhoff; the mechanical and acoustical
 * sides by force and volume velocity, common practice): nothing of it is shared with what it tests.
 */
public final class NodalBox {
  private static final double RHO = 1.204;
  private static final double SOUND = 343.2;
  private static final double OPEN_OHM = 1e6;

  /** A voice coil between two electrical nodes; node 0 is one terminal, node 1 the other. */
  public static final class Coil {
    public double resistance;
    public double force;
    public double lossyK;
    public double lossyN = 0.65;
    public double inductance;
    public double parallelResistance;
    public int from;
    public int to;
    public boolean open;
    public boolean shorted;
  }

  /** A driver with its coils, and the air space behind it. */
  public static final class Driver {
    public double mass;
    public double compliance;
    public double loss;
    public double area;
    public int space;
    public List<Coil> coils = new ArrayList<>();

    public double resonanceHz() {
      return 1 / (2 * Math.PI * Math.sqrt(mass * compliance));
    }
  }

  /** An air space: volume, tuning of its vent (0 for none), qualities of leak and vent. */
  public static final class Space {
    public double volume;
    public double tuningHz;
    public double leakQuality = 1e9;
    public double ventQuality = 1e9;
    public double leakResistance = 1e18;

    Complex admittance(double w) {
      double capacity = volume / (RHO * SOUND * SOUND);
      double reference = 2 * Math.PI * (tuningHz > 0 ? tuningHz : 40);
      Complex y =
          new Complex(reference * capacity / leakQuality + 1 / leakResistance, w * capacity);
      if (tuningHz > 0) {
        double ventMass = 1 / (reference * reference * capacity);
        y = y.add(new Complex(reference * ventMass / ventQuality, w * ventMass).reciprocal());
      }
      return y;
    }
  }

  public List<Driver> drivers = new ArrayList<>();
  public List<Space> spaces = new ArrayList<>();
  public int nodes = 2;
  public double leadOhm;

  public Complex impedance(double hz) {
    double w = 2 * Math.PI * hz;
    int n = drivers.size();
    // Mechanical impedance matrix: own and through shared spaces.
    Complex[][] mechanical = zeros(n, n);
    for (int i = 0; i < n; i++) {
      Driver d = drivers.get(i);
      mechanical[i][i] = new Complex(d.loss, w * d.mass - 1 / (w * d.compliance));
      for (int j = 0; j < n; j++) {
        if (drivers.get(j).space == d.space) {
          mechanical[i][j] =
              mechanical[i][j].add(
                  spaces
                      .get(d.space)
                      .admittance(w)
                      .reciprocal()
                      .multiply(d.area * drivers.get(j).area));
        }
      }
    }
    List<Coil> coils = new ArrayList<>();
    List<Integer> owners = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (Coil coil : drivers.get(i).coils) {
        coils.add(coil);
        owners.add(i);
      }
    }
    // Unknowns: coil currents, velocities, voltages of nodes 1.. (node 0 is ground).
    int c = coils.size();
    int size = c + n + nodes - 1;
    Complex[][] a = zeros(size, size + 1);
    for (int k = 0; k < c; k++) {
      Coil coil = coils.get(k);
      addVoltage(a[k], coil.from, Complex.ONE, c + n);
      addVoltage(a[k], coil.to, Complex.ONE.negate(), c + n);
      a[k][k] = a[k][k].subtract(coilImpedance(coil, w)).subtract(coil.open ? OPEN_OHM : 0);
      a[k][c + owners.get(k)] = new Complex(-coil.force);
      addVoltageRow(a, coil.from, k, -1, c + n);
      addVoltageRow(a, coil.to, k, 1, c + n);
      if (coil.shorted) {
        bridge(a, coil, c + n);
      }
      a[c + owners.get(k)][k] = a[c + owners.get(k)][k].add(coil.force);
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        a[c + i][c + j] = a[c + i][c + j].subtract(mechanical[i][j]);
      }
    }
    a[c + n][size] = new Complex(-1); // one ampere into node 1
    Complex[] x = solve(a);
    return x[c + n].add(leadOhm);
  }

  private static Complex coilImpedance(Coil coil, double w) {
    double size = coil.lossyK * Math.pow(w, coil.lossyN);
    double angle = coil.lossyN * Math.PI / 2;
    Complex z = new Complex(coil.resistance + size * Math.cos(angle), size * Math.sin(angle));
    if (coil.inductance > 0) {
      Complex l = new Complex(0, w * coil.inductance);
      z =
          z.add(
              coil.parallelResistance > 0
                  ? l.multiply(coil.parallelResistance).divide(l.add(coil.parallelResistance))
                  : l);
    }
    return z;
  }

  private static void bridge(Complex[][] a, Coil coil, int base) {
    Complex g = new Complex(1e3);
    int[] ends = {coil.from, coil.to};
    for (int i = 0; i < 2; i++) {
      if (ends[i] > 0) {
        int row = base + ends[i] - 1;
        a[row][row] = a[row][row].subtract(g);
        if (ends[1 - i] > 0) {
          a[row][base + ends[1 - i] - 1] = a[row][base + ends[1 - i] - 1].add(g);
        }
      }
    }
  }

  private static void addVoltage(Complex[] row, int node, Complex by, int base) {
    if (node > 0) {
      row[base + node - 1] = row[base + node - 1].add(by);
    }
  }

  private static void addVoltageRow(Complex[][] a, int node, int column, double by, int base) {
    if (node > 0) {
      a[base + node - 1][column] = a[base + node - 1][column].add(by);
    }
  }

  private static Complex[][] zeros(int rows, int columns) {
    Complex[][] a = new Complex[rows][columns];
    for (Complex[] row : a) {
      java.util.Arrays.fill(row, Complex.ZERO);
    }
    return a;
  }

  /** Gauss with row exchange. */
  private static Complex[] solve(Complex[][] a) {
    int n = a.length;
    for (int p = 0; p < n; p++) {
      int best = p;
      for (int r = p + 1; r < n; r++) {
        best = a[r][p].abs() > a[best][p].abs() ? r : best;
      }
      Complex[] swap = a[p];
      a[p] = a[best];
      a[best] = swap;
      Complex inverse = a[p][p].reciprocal();
      for (int r = p + 1; r < n; r++) {
        if (!a[r][p].equals(Complex.ZERO)) {
          Complex factor = a[r][p].multiply(inverse);
          for (int col = p; col <= n; col++) {
            a[r][col] = a[r][col].subtract(factor.multiply(a[p][col]));
          }
        }
      }
    }
    Complex[] x = new Complex[n];
    for (int r = n - 1; r >= 0; r--) {
      Complex sum = a[r][n];
      for (int col = r + 1; col < n; col++) {
        sum = sum.subtract(a[r][col].multiply(x[col]));
      }
      x[r] = sum.divide(a[r][r]);
    }
    return x;
  }

  /** The curve with relative noise on both parts, stated as its uncertainty when not 0. */
  public ImpedanceCurve curve(double[] frequenciesHz, double relativeNoise, Random random) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : frequenciesHz) {
      Complex z = impedance(f);
      double sigma = relativeNoise * z.abs();
      points.add(
          new ImpedancePoint(
              f,
              z.getReal() + sigma * random.nextGaussian(),
              z.getImaginary() + sigma * random.nextGaussian(),
              relativeNoise > 0
                  ? Optional.of(ImpedanceUncertainty.circular(sigma))
                  : Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }

  /** Multiples of a step, thinned to about 4 % apart: a comb of tones. */
  public static double[] comb(double lowHz, double highHz, double stepHz) {
    List<Double> list = new ArrayList<>();
    double last = 0;
    for (int k = (int) Math.ceil(lowHz / stepHz); k * stepHz <= highHz; k++) {
      if (k * stepHz >= last * 1.015) {
        last = k * stepHz;
        list.add(last);
      }
    }
    return list.stream().mapToDouble(Double::doubleValue).toArray();
  }

  public static double[] logarithmic(double lowHz, double highHz, int count) {
    double[] f = new double[count];
    for (int i = 0; i < count; i++) {
      f[i] = lowHz * Math.pow(highHz / lowHz, i / (count - 1.0));
    }
    return f;
  }
}
