package conewise.simulator.dynamics;

import java.util.Map;
import java.util.TreeMap;

/** An immutable sum of coefficient x variable; the variables belong to one equation sheet. */
public final class Expression {
  /** The empty sum. */
  public static final Expression ZERO = new Expression(new TreeMap<>());

  private final Map<Integer, Double> terms;

  private Expression(Map<Integer, Double> terms) {
    this.terms = terms;
  }

  static Expression variable(int index) {
    Map<Integer, Double> terms = new TreeMap<>();
    terms.put(index, 1.0);
    return new Expression(terms);
  }

  /** This sum and another. */
  public Expression plus(Expression other) {
    return plus(1, other);
  }

  /** This sum less another. */
  public Expression minus(Expression other) {
    return plus(-1, other);
  }

  /** This sum and factor x another. */
  public Expression plus(double factor, Expression other) {
    if (factor == 0) {
      return this;
    }
    Map<Integer, Double> sum = new TreeMap<>(terms);
    other.terms.forEach((variable, value) -> sum.merge(variable, factor * value, Double::sum));
    return new Expression(sum);
  }

  /** Factor x this sum. */
  public Expression times(double factor) {
    return ZERO.plus(factor, this);
  }

  Map<Integer, Double> terms() {
    return terms;
  }
}
