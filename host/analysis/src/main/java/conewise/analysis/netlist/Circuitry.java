package conewise.analysis.netlist;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;

/**
 * Parts joined at nodes, solved by modified nodal analysis (C.-W. Ho, A. E. Ruehli and P. A.
 * Brennan, IEEE Trans. Circuits Syst. 22, 1975): unknown are the nodes' voltages and the currents
 * of meters and followers.
 */
final class Circuitry {
  private static final double SMALLEST_PIVOT = 1e-200;

  private final List<Part> parts;
  private final Map<String, Integer> nodes = new LinkedHashMap<>();
  private final Map<String, Integer> branches = new LinkedHashMap<>();

  Circuitry(List<Part> parts) {
    this.parts = List.copyOf(parts);
    for (Part part : parts) {
      if (part instanceof TwoPole pole) {
        nodes(pole.from(), pole.to());
      } else if (part instanceof Part.Meter meter) {
        nodes(meter.from(), meter.to());
        branches.put("V" + meter.name(), branches.size());
      } else if (part instanceof Part.Follower follower) {
        nodes(follower.from(), follower.to());
        branches.put("E" + follower.name(), branches.size());
      } else if (part instanceof Part.Copy copy) {
        nodes(copy.into());
      }
    }
  }

  private void nodes(String... names) {
    for (String name : names) {
      if (!name.equals("0")) {
        nodes.putIfAbsent(name, nodes.size());
      }
    }
  }

  /** All lines, in the parts' order. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    parts.forEach(part -> lines.addAll(part.lines()));
    return lines;
  }

  /** The impedance between a node and ground, at an angular frequency above 0. */
  Complex impedance(String node, double angular) {
    int size = nodes.size() + branches.size();
    Equations equations = new Equations(size);
    for (Part part : parts) {
      add(part, angular, equations);
    }
    return equations.solve(nodes.get(node));
  }

  private void add(Part part, double angular, Equations equations) {
    if (part instanceof TwoPole pole) {
      Complex y = pole.admittance().apply(angular);
      int from = node(pole.from());
      int to = node(pole.to());
      equations.add(from, from, y);
      equations.add(to, to, y);
      equations.add(from, to, y.negate());
      equations.add(to, from, y.negate());
    } else if (part instanceof Part.Meter meter) {
      branch(branch("V" + meter.name()), meter.from(), meter.to(), equations);
    } else if (part instanceof Part.Follower follower) {
      int row = branch("E" + follower.name());
      branch(row, follower.from(), follower.to(), equations);
      int of = follower.ofCurrent() ? branch("V" + follower.of()) : node(follower.of());
      equations.add(row, of, new Complex(-follower.gain()));
    } else if (part instanceof Part.Copy copy) {
      equations.add(node(copy.into()), branch("V" + copy.meter()), new Complex(-copy.gain()));
    }
  }

  /** A branch's current leaves one node and enters the other; its voltage is what is left. */
  private void branch(int row, String from, String to, Equations equations) {
    equations.add(node(from), row, Complex.ONE);
    equations.add(node(to), row, Complex.ONE.negate());
    equations.add(row, node(from), Complex.ONE);
    equations.add(row, node(to), Complex.ONE.negate());
  }

  private int node(String name) {
    return name.equals("0") ? -1 : nodes.get(name);
  }

  private int branch(String name) {
    return nodes.size() + branches.get(name);
  }

  /** Complex equations as real ones of twice the size; a row or column of -1 is ground. */
  private static final class Equations {
    private final int size;
    private final Array2DRowRealMatrix matrix;

    Equations(int size) {
      this.size = size;
      matrix = new Array2DRowRealMatrix(2 * size, 2 * size);
    }

    void add(int row, int column, Complex value) {
      if (row >= 0 && column >= 0) {
        matrix.addToEntry(row, column, value.getReal());
        matrix.addToEntry(size + row, size + column, value.getReal());
        matrix.addToEntry(row, size + column, -value.getImaginary());
        matrix.addToEntry(size + row, column, value.getImaginary());
      }
    }

    /** What one ampere into a node raises there. */
    Complex solve(int node) {
      RealVector ampere = new ArrayRealVector(2 * size);
      ampere.setEntry(node, 1);
      RealVector answer = new LUDecomposition(matrix, SMALLEST_PIVOT).getSolver().solve(ampere);
      return new Complex(answer.getEntry(node), answer.getEntry(size + node));
    }
  }
}
