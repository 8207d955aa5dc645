package conewise.analysis.fit;

import conewise.analysis.model.Network;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;

/** What the world has that the fitted model has not. */
enum TrueWorld {
  AS_MODELLED,
  OTHER_COIL,
  OTHER_CREEP,
  CONVERTER,
  ALL_OF_THEM,

  /** Again others, of other forms: the usual discrepancy was not chosen by these. */
  ALL_OF_OTHER_FORMS;

  boolean has(TrueWorld what) {
    return this == what || this == ALL_OF_THEM || this == ALL_OF_OTHER_FORMS;
  }

  /** A box as it truly is. */
  interface Built {
    /** The figures that an ideal measurement would find. */
    BoxFit.Values truth();

    /** The network's quantities as they are at one frequency. */
    double[] valuesAt(double frequencyHz);

    /** What the converter multiplies the impedance with. */
    Complex converterAt(double frequencyHz, Random random);
  }

  Built build(Network network, double[] modelled, Random random) {
    return new Real(this, network, modelled, random);
  }

  private static final class Real implements Built {
    private final TrueWorld world;
    private final List<Quantity> quantities;
    private final double[] values;
    private final double[] plainShare;
    private final double[] knee;
    private final double solidCreep;
    private final double solidHz;
    private final double powerStiffness;
    private final double power;
    private final double lateSeconds;
    private final double wavePhase;
    private final double waveSpeed;

    Real(TrueWorld world, Network network, double[] modelled, Random random) {
      this.world = world;
      quantities = network.quantities();
      values = modelled.clone();
      solidCreep = BoxKind.between(random, 0.05, 0.15);
      solidHz = BoxKind.between(random, 6, 25);
      wavePhase = BoxKind.between(random, 0, 6);
      waveSpeed = BoxKind.between(random, 1, 4);
      plainShare = new double[] {BoxKind.between(random, 0.2, 0.5)};
      knee = new double[] {BoxKind.between(random, 200, 800), BoxKind.between(random, 1000, 4000)};
      powerStiffness = BoxKind.between(random, 0.1, 0.4);
      power = BoxKind.between(random, 0.1, 0.4);
      lateSeconds = BoxKind.between(random, -1e-6, 1e-6);
      if (world.has(OTHER_CREEP)) {
        for (int i = 0; i < values.length; i++) {
          // The modelled creep gives way to another; what it took of Qms stays with the loss.
          if (quantities.get(i).kind() == Kind.CREEP) {
            values[i] = 0;
          }
        }
      }
    }

    private int index(String part, Kind kind) {
      return quantities.indexOf(new Quantity(part, kind));
    }

    @Override
    public BoxFit.Values truth() {
      return quantity -> {
        boolean cone = index(quantity.part(), Kind.ELECTRICAL_Q) >= 0;
        double value = values[quantities.indexOf(quantity)];
        if (world.has(OTHER_CREEP) && cone && quantity.kind() == Kind.MECHANICAL_Q) {
          double fs = values[index(quantity.part(), Kind.RESONANCE)];
          Complex spring = spring(fs, fs);
          return 1 / (1 / value + spring.getReal() / -spring.getImaginary());
        }
        return value;
      };
    }

    /**
     * A standard linear solid's spring over that of a plain one: 1/(j x c), c = (1 + k/(1 + j
     * f/fk)), with its reactance at fs made that of the plain one.
     */
    private Complex spring(double f, double fs) {
      Complex own = solid(f);
      double atFs = solid(fs).getImaginary() * fs;
      return own.divide(-atFs);
    }

    private Complex solid(double f) {
      if (world == ALL_OF_OTHER_FORMS) {
        // A spring beside one whose stiffness is a power of frequency (fractional Kelvin-Voigt).
        Complex stiffness = new Complex(0, f / 10).pow(power).multiply(powerStiffness).add(1);
        return stiffness.divide(new Complex(0, f));
      }
      Complex c = new Complex(1, f / solidHz).reciprocal().multiply(solidCreep).add(1);
      return new Complex(0, f).multiply(c).reciprocal();
    }

    @Override
    public double[] valuesAt(double f) {
      double[] now = values.clone();
      if (f == 0) {
        return now;
      }
      for (Quantity quantity : quantities) {
        if (quantity.kind() == Kind.ELECTRICAL_Q && world.has(OTHER_CREEP)) {
          stiffen(now, quantity.part(), f);
        }
        if (quantity.kind() == Kind.LOSSY_INDUCTANCE && world.has(OTHER_COIL)) {
          wind(now, quantity.part(), f);
        }
      }
      return now;
    }

    /** Sets compliance and loss at a frequency, mass and force factor staying as they are. */
    private void stiffen(double[] now, String part, double f) {
      double fs = values[index(part, Kind.RESONANCE)];
      Complex spring = spring(f, fs);
      // A plain spring of compliance 1 at f has the impedance 1/(j f).
      double compliance = 1 / (-spring.getImaginary() * f);
      double softer = Math.sqrt(compliance);
      now[index(part, Kind.RESONANCE)] = fs / softer;
      now[index(part, Kind.EQUIVALENT_VOLUME)] *= compliance;
      double loss = 1 / values[index(part, Kind.MECHANICAL_Q)] + spring.getReal() * fs;
      now[index(part, Kind.MECHANICAL_Q)] = 1 / softer / loss;
      now[index(part, Kind.ELECTRICAL_Q)] /= softer;
    }

    /**
     * A coil of a plain part and what its iron adds: two inductances with a resistance beside each
     * (common practice), or other forms.
     */
    private void wind(double[] now, String part, double f) {
      double n = values[index(part, Kind.LOSSY_EXPONENT)];
      double modulus = values[index(part, Kind.LOSSY_INDUCTANCE)] * Math.pow(400 * Math.PI, n);
      Complex z = new Complex(0, plainShare[0] * modulus * f / 200).add(lossy(modulus, f));
      double exponent = Math.max(0.06, z.getArgument() / (Math.PI / 2));
      now[index(part, Kind.LOSSY_EXPONENT)] = exponent;
      now[index(part, Kind.LOSSY_INDUCTANCE)] = z.abs() / Math.pow(2 * Math.PI * f, exponent);
      now[index(part, Kind.INDUCTANCE)] = 0;
    }

    private Complex lossy(double modulus, double f) {
      double most = (1 - plainShare[0]) * modulus;
      if (world == ALL_OF_OTHER_FORMS) {
        // A coil on solid iron, the root of frequency, with a short-circuited ring beside it.
        Complex iron = new Complex(0, f / 200).sqrt().multiply(most);
        double ring = most * Math.sqrt(knee[1] / 200);
        return iron.multiply(ring).divide(iron.add(ring));
      }
      Complex z = Complex.ZERO;
      for (double corner : knee) {
        z = z.add(new Complex(1, -corner / f).reciprocal().multiply(most * corner / 200 * 0.7));
      }
      return z;
    }

    @Override
    public Complex converterAt(double f, Random random) {
      if (!world.has(CONVERTER)) {
        return Complex.ONE;
      }
      if (world == ALL_OF_OTHER_FORMS) {
        Complex late = new Complex(0, 2 * Math.PI * f * lateSeconds).exp();
        return late.multiply(1 + 0.002 * random.nextGaussian());
      }
      double angle = wavePhase + waveSpeed * Math.log(f);
      return new Complex(
          1 + 0.002 * random.nextGaussian() + 0.002 * Math.sin(angle),
          0.002 * random.nextGaussian() + 0.002 * Math.cos(1.3 * angle));
    }
  }
}
