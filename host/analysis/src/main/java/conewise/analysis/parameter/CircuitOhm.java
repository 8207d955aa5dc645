package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;

/** The direct current resistance of a circuit of coils and resistances (Ohm's and Kirchhoff's). */
final class CircuitOhm {
  private CircuitOhm() {}

  /** In ohm; infinite where no current can pass. */
  static double of(Circuit circuit, BoxModel box, Values v) {
    if (circuit instanceof Circuit.Series series) {
      return series.parts().stream().mapToDouble(part -> of(part, box, v)).sum();
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      return 1 / parallel.parts().stream().mapToDouble(part -> 1 / of(part, box, v)).sum();
    }
    if (circuit instanceof Circuit.Coil coil) {
      Driver driver = box.driver(coil.driver());
      double share = driver.coils().get(coil.number() - 1).resistanceOhm() / driver.meanCoilOhm();
      return share * v.of(new Quantity(coil.driver(), Kind.COIL_RESISTANCE));
    }
    if (circuit instanceof Circuit.Resistance part) {
      return v.of(new Quantity(part.name(), Kind.RESISTANCE));
    }
    return circuit instanceof Circuit.Gap ? Double.POSITIVE_INFINITY : 0;
  }
}
