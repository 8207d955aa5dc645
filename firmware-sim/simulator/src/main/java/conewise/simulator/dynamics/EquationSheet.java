package conewise.simulator.dynamics;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A sheet on which linear differential equations are written one by one: declare states and inputs,
 * give each state its derivative, name the outputs, and take the {@link StateSpace}.
 */
public final class EquationSheet {
  private final List<String> names = new ArrayList<>();
  private final List<Boolean> isState = new ArrayList<>();
  private final Map<Integer, Expression> derivatives = new LinkedHashMap<>();
  private final Map<String, Expression> outputs = new LinkedHashMap<>();

  /** Creates an empty sheet. */
  public EquationSheet() {}

  /** Declares a state; its derivative must be given before {@link #stateSpace()}. */
  public Expression state(String name) {
    return declare(name, true);
  }

  /** Declares an input: a quantity given from outside and constant during a tick. */
  public Expression input(String name) {
    return declare(name, false);
  }

  private Expression declare(String name, boolean state) {
    names.add(name);
    isState.add(state);
    return Expression.variable(names.size() - 1);
  }

  /**
   * Gives the derivative with respect to time of a state.
   *
   * @param state what {@link #state(String)} returned
   * @throws IllegalArgumentException if it is no state of this sheet or has a derivative already
   */
  public void derivative(Expression state, Expression derivative) {
    int index = state.terms().size() == 1 ? state.terms().keySet().iterator().next() : -1;
    if (index < 0 || !isState.get(index) || derivatives.containsKey(index)) {
      throw new IllegalArgumentException(
          "A derivative needs a state that has none yet; given: " + state.terms());
    }
    derivatives.put(index, derivative);
  }

  /** The derivative given for a state. */
  public Expression derivativeOf(Expression state) {
    return derivatives.get(state.terms().keySet().iterator().next());
  }

  /** Names a quantity that is to be read from the system; outputs keep the order of naming. */
  public void output(String name, Expression value) {
    outputs.put(name, value);
  }

  /**
   * The equations as matrices.
   *
   * @throws IllegalStateException if a state has no derivative
   */
  public StateSpace stateSpace() {
    int[] place = new int[names.size()];
    List<String> states = new ArrayList<>();
    List<String> inputs = new ArrayList<>();
    for (int v = 0; v < place.length; v++) {
      List<String> list = isState.get(v) ? states : inputs;
      place[v] = list.size();
      list.add(names.get(v));
    }
    double[][] a = new double[states.size()][states.size()];
    double[][] b = new double[states.size()][inputs.size()];
    for (int v = 0; v < place.length; v++) {
      if (isState.get(v)) {
        if (!derivatives.containsKey(v)) {
          throw new IllegalStateException("State " + names.get(v) + " has no derivative.");
        }
        fill(derivatives.get(v), place, a[place[v]], b[place[v]]);
      }
    }
    double[][] c = new double[outputs.size()][states.size()];
    double[][] d = new double[outputs.size()][inputs.size()];
    int row = 0;
    for (Expression output : outputs.values()) {
      fill(output, place, c[row], d[row]);
      row++;
    }
    return new StateSpace(a, b, c, d, states, inputs, List.copyOf(outputs.keySet()));
  }

  private void fill(Expression sum, int[] place, double[] ofStates, double[] ofInputs) {
    sum.terms()
        .forEach(
            (variable, value) ->
                (isState.get(variable) ? ofStates : ofInputs)[place[variable]] = value);
  }
}
