package conewise.analysis.fit;

import conewise.analysis.model.Network;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import org.apache.commons.math3.complex.Complex;

/**
 * Where the reactance of cone and air of a closed box truly passes zero, and the Q there: by
 * complex stiffnesses over the moving mass, as its parts are at that frequency.
 */
record ClosedBox(double resonanceHz, double totalQ) {
  private static final int ROUNDS = 60;

  /** The frequency at which a leak's Q is stated. */
  private static final double LEAK_HZ = 40;

  static ClosedBox of(Network network, TrueWorld.Built built) {
    double f = 50;
    Complex stiffness = Complex.ZERO;
    double bySpeed = 0;
    for (int i = 0; i < ROUNDS; i++) {
      double[] now = built.valuesAt(f);
      double fs = value(network, now, "a", Kind.RESONANCE);
      double alpha =
          value(network, now, "a", Kind.EQUIVALENT_VOLUME)
              / value(network, now, "main", Kind.VOLUME);
      double leak = LEAK_HZ / f / value(network, now, "leak", Kind.LEAK_Q);
      Complex cone = creeping(value(network, now, "a", Kind.CREEP), f / fs);
      stiffness = cone.add(new Complex(alpha, alpha * leak)).multiply(fs * fs);
      bySpeed =
          fs
              * (1 / value(network, now, "a", Kind.MECHANICAL_Q)
                  + 1 / value(network, now, "a", Kind.ELECTRICAL_Q));
      f = Math.sqrt(stiffness.getReal());
    }
    return new ClosedBox(f, 1 / (bySpeed / f + stiffness.getImaginary() / (f * f)));
  }

  /** 1 over 1 - creep log10(j f/fs), scaled so that its real part is 1 at fs. */
  private static Complex creeping(double creep, double overResonance) {
    Complex atResonance = compliance(creep, 1).reciprocal();
    return compliance(creep, overResonance).reciprocal().divide(atResonance.getReal());
  }

  private static Complex compliance(double creep, double overResonance) {
    return new Complex(0, overResonance).log().multiply(-creep / Math.log(10)).add(1);
  }

  private static double value(Network network, double[] values, String part, Kind kind) {
    int index = network.quantities().indexOf(new Quantity(part, kind));
    return values[index];
  }
}
