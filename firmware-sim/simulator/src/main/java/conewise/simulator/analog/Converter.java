package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

import java.util.SplittableRandom;

/**
 * The converter: noise, a smooth departure from the straight line, rounding and saturation.
 *
 * @param noiseCodes standard deviation of white noise, in codes
 * @param bendCodes largest departure from the straight line, in codes
 */
public record Converter(double noiseCodes, double bendCodes) {
  /** Checks the values. */
  public Converter {
    require("noise of the converter", noiseCodes, 0, 100, "codes");
    require("nonlinearity of the converter", bendCodes, 0, 50, "codes");
  }

  /** One converter at work, with its own bend and noise. */
  static final class Running {
    private final Converter converter;
    private final int codes;
    private final SplittableRandom random;
    private final double firstPhase;
    private final double secondPhase;
    private double spare;
    private boolean hasSpare;

    Running(Converter converter, int codes, SplittableRandom random) {
      this.converter = converter;
      this.codes = codes;
      this.random = random;
      this.firstPhase = random.nextDouble() * 2 * Math.PI;
      this.secondPhase = random.nextDouble() * 2 * Math.PI;
    }

    int convert(double exactCode) {
      double code = exactCode + bend(exactCode);
      if (converter.noiseCodes > 0) {
        code += converter.noiseCodes * gauss();
      }
      return (int) Math.max(0, Math.min(codes - 1, Math.rint(code)));
    }

    /** Departure from the straight line at a code, in codes. */
    double bend(double exactCode) {
      if (converter.bendCodes == 0) {
        return 0;
      }
      double place = 2 * Math.PI * exactCode / codes;
      return converter.bendCodes
          * (0.7 * StrictMath.sin(1.3 * place + firstPhase)
              + 0.3 * StrictMath.sin(3.7 * place + secondPhase));
    }

    /** Standard normal by the polar method (G. Marsaglia, SIAM Review 6 (1964), 260). */
    private double gauss() {
      if (hasSpare) {
        hasSpare = false;
        return spare;
      }
      double x;
      double y;
      double s;
      do {
        x = 2 * random.nextDouble() - 1;
        y = 2 * random.nextDouble() - 1;
        s = x * x + y * y;
      } while (s >= 1 || s == 0);
      double factor = Math.sqrt(-2 * StrictMath.log(s) / s);
      spare = y * factor;
      hasSpare = true;
      return x * factor;
    }
  }
}
