package conewise.station.lab;

import conewise.simulator.box.Air;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import java.util.SplittableRandom;

/**
 * A driver drawn for a student, as the simulator builds it.
 *
 * @param fsHz its resonance in free air
 * @param qms its mechanical Q
 * @param qes its electrical Q
 * @param vasLitre its equivalent volume
 * @param areaCm2 its area
 * @param ohm its DC resistance
 * @param coil its inductance
 */
record DrawnDriver(
    double fsHz,
    double qms,
    double qes,
    double vasLitre,
    int areaCm2,
    double ohm,
    Inductance coil) {

  private static final int[] AREAS_CM2 = {215, 340, 510};
  private static final double CM2_PER_M2 = 1e4;

  /** Draws one; the ranges are those of usual woofers (common practice). */
  static DrawnDriver of(SplittableRandom random) {
    double fs = between(random, 26, 42);
    double qms = between(random, 4, 8);
    double qes = between(random, 0.38, 0.65);
    double vas = between(random, 35, 90);
    int area = AREAS_CM2[random.nextInt(AREAS_CM2.length)];
    double ohm = between(random, 3.2, 6.8);
    double k = between(random, 0.0025, 0.0035) * ohm;
    return new DrawnDriver(
        fs, qms, qes, vas, area, ohm, Inductance.lossy(k, between(random, 0.64, 0.74)));
  }

  static double between(SplittableRandom random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  /** The simulator's driver. */
  Driver built() {
    return Driver.ofParameters(Air.ROOM, fsHz, qms, qes, vasLitre, areaCm2 / CM2_PER_M2, ohm, 1)
        .with(coil, 0);
  }

  /** Of all losses: 1/Qts = 1/Qms + 1/Qes. */
  double qts() {
    return qms * qes / (qms + qes);
  }

  /** Resistance that the moving cone adds at resonance: Re Qms / Qes. */
  double motionalOhm() {
    return ohm * qms / qes;
  }

  double massGram() {
    return 1e3 * built().massKg();
  }

  /**
   * Resistance and reactance of the coil without its DC resistance, straight from the simulator's
   * chain of sections.
   */
  double[] coilOhm(double hz) {
    double w = 2 * Math.PI * hz;
    double resistance = 0;
    double reactance = w * coil.seriesHenry();
    for (Inductance.Section section : coil.sections()) {
      // jx beside r: r x^2 / (r^2 + x^2) + j r^2 x / (r^2 + x^2)
      double x = w * section.henry();
      double r = section.ohm();
      double size = r * r + x * x;
      resistance += r * x * x / size;
      reactance += r * r * x / size;
    }
    return new double[] {resistance, reactance};
  }
}
