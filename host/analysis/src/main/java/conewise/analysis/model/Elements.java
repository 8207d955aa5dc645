package conewise.analysis.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The elements of a network (masses, compliances, losses, force factors, ...) as products of powers
 * of a box's quantities: every relation between the trade's parameters and the elements is one
 * (Small, J. Audio Eng. Soc. 20 and 21, 1972 and 1973). So the logarithms of the elements are
 * linear in those of the quantities, and a slope by an element is passed on to the quantities by
 * their exponents alone.
 */
final class Elements {

  /** A quantity to a power. */
  record Power(int quantity, double exponent) {}

  private final Map<Quantity, Integer> index = new LinkedHashMap<>();
  private final List<Double> nominal = new ArrayList<>();
  private final List<Double> factors = new ArrayList<>();
  private final List<Power[]> powers = new ArrayList<>();

  /** Registers a quantity with the value that the box states; the same one is given once. */
  int quantity(String part, Quantity.Kind kind, double value) {
    return index.computeIfAbsent(
        new Quantity(part, kind),
        key -> {
          nominal.add(value);
          return nominal.size() - 1;
        });
  }

  /** Adds the element factor x product of the powers; returns its index. */
  int add(double factor, Power... of) {
    factors.add(factor);
    powers.add(of.clone());
    return factors.size() - 1;
  }

  int count() {
    return factors.size();
  }

  List<Quantity> quantities() {
    return List.copyOf(index.keySet());
  }

  double[] nominal() {
    return nominal.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The elements' values at given values of the quantities. */
  void evaluate(double[] quantities, double[] into) {
    for (int i = 0; i < into.length; i++) {
      double value = factors.get(i);
      for (Power power : powers.get(i)) {
        double base = quantities[power.quantity];
        value *= power.exponent == 1 ? base : Math.pow(base, power.exponent);
      }
      into[i] = value;
    }
  }

  /**
   * Passes a slope by each element's logarithm (or value, where it is counted so) to quantities.
   */
  void chain(double[] byElement, double[] byQuantity) {
    java.util.Arrays.fill(byQuantity, 0);
    for (int i = 0; i < byElement.length; i++) {
      for (Power power : powers.get(i)) {
        byQuantity[power.quantity] += power.exponent * byElement[i];
      }
    }
  }
}
