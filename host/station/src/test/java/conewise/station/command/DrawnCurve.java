package conewise.station.command;

import java.util.Locale;
import java.util.Random;

/** Impedance tables drawn at random: drivers, things that are nearly drivers, and nonsense. */
final class DrawnCurve {
  private DrawnCurve() {}

  static String text(Random random) {
    StringBuilder text = new StringBuilder("frequency_hz,resistance_ohm,reactance_ohm\n");
    int points = 1 + random.nextInt(random.nextBoolean() ? 8 : 300);
    double hz = random.nextInt(4) == 0 ? 0 : Math.pow(10, 3 * random.nextDouble() - 1);
    double step = Math.pow(10, 2.0 / (points + 1) * random.nextDouble() + 0.001);
    double resonanceHz = Math.pow(10, 3 * random.nextDouble());
    double size = Math.pow(10, 6 * random.nextDouble() - 3);
    double q = Math.pow(10, 3 * random.nextDouble() - 1.5);
    double noise = Math.pow(10, -4 * random.nextDouble());
    double height = Math.pow(10, 3 * random.nextDouble() - 1);
    boolean nonsense = random.nextInt(3) == 0;
    for (int i = 0; i < points; i++) {
      double x = hz == 0 ? -1e9 : q * (hz / resonanceHz - resonanceHz / hz);
      double resistance = 1 + height / (1 + x * x);
      double reactance = hz == 0 ? 0 : -height * x / (1 + x * x) + 1e-3 * hz;
      if (nonsense) {
        resistance = random.nextGaussian();
        reactance = hz == 0 ? 0 : random.nextGaussian();
      }
      double error = 1 + noise * random.nextGaussian();
      text.append(
          String.format(
              Locale.ROOT, "%.9g,%.9g,%.9g%n", hz, size * resistance * error, size * reactance));
      hz = hz == 0 ? 0.5 + 20 * random.nextDouble() : hz * step;
    }
    return text.toString();
  }
}
