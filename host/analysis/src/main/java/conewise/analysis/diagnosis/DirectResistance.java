package conewise.analysis.diagnosis;

import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import java.util.function.ToDoubleFunction;

/** Resistance to direct current, by Ohm's and Kirchhoff's laws. Polarity never shows in it. */
public final class DirectResistance {
  private DirectResistance() {}

  /** At the terminals as the box states its coils, in ohm; infinite where nothing conducts. */
  public static double ohm(BoxModel box) {
    return ohm(box, box.circuit());
  }

  static double ohm(BoxModel box, Circuit circuit) {
    return ohm(
        circuit,
        coil -> box.driver(coil.driver()).coils().get(coil.number() - 1).resistanceOhm(),
        Circuit.Resistance::ohm);
  }

  /** Of a circuit whose coils and resistances have given values. */
  public static double ohm(
      Circuit circuit, ToDoubleFunction<Coil> coilOhm, ToDoubleFunction<Circuit.Resistance> ohm) {
    if (circuit instanceof Series series) {
      return series.parts().stream().mapToDouble(part -> ohm(part, coilOhm, ohm)).sum();
    }
    if (circuit instanceof Parallel parallel) {
      return 1 / parallel.parts().stream().mapToDouble(part -> 1 / ohm(part, coilOhm, ohm)).sum();
    }
    if (circuit instanceof Coil coil) {
      return coilOhm.applyAsDouble(coil);
    }
    if (circuit instanceof Circuit.Resistance resistance) {
      return ohm.applyAsDouble(resistance);
    }
    return circuit instanceof Circuit.Gap ? Double.POSITIVE_INFINITY : 0;
  }
}
