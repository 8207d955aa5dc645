package conewise.station.lab;

import conewise.simulator.box.Box;
import conewise.simulator.box.BoxEquations;
import conewise.simulator.dynamics.EquationSheet;
import conewise.simulator.dynamics.StateSpace;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.FieldLUDecomposition;

/**
 * The impedance that a box's differential equations have: one volt over the current that follows, C
 * (jw - A)^-1 B + D in state-space form (common practice).
 */
public record SimulatedImpedance(StateSpace system) {

  /** Of a box. */
  public static SimulatedImpedance of(Box box) {
    EquationSheet sheet = new EquationSheet();
    BoxEquations equations =
        BoxEquations.write(sheet, sheet.input("source"), terminals -> terminals, box);
    sheet.output("current", equations.current());
    return new SimulatedImpedance(sheet.stateSpace());
  }

  /** In ohm, at a frequency above 0. */
  public Complex at(double hz) {
    int n = system.states().size();
    Complex s = new Complex(0, 2 * Math.PI * hz);
    Complex[][] rows = new Complex[n][n];
    Complex[] right = new Complex[n];
    for (int i = 0; i < n; i++) {
      // Pascal, metre and ampere stand side by side: each row is taken over its largest entry.
      double scale = s.abs();
      for (double entry : system.a()[i]) {
        scale = Math.max(scale, Math.abs(entry));
      }
      for (int j = 0; j < n; j++) {
        Complex entry = new Complex(-system.a()[i][j]);
        rows[i][j] = (i == j ? entry.add(s) : entry).divide(scale);
      }
      right[i] = new Complex(system.b()[i][0] / scale);
    }
    Complex[] state =
        new FieldLUDecomposition<>(new Array2DRowFieldMatrix<>(rows))
            .getSolver()
            .solve(new ArrayFieldVector<>(right))
            .toArray();
    Complex current = new Complex(system.d()[0][0]);
    for (int i = 0; i < n; i++) {
      current = current.add(state[i].multiply(system.c()[0][i]));
    }
    return current.reciprocal();
  }
}
