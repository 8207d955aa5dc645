package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.junit.jupiter.api.Test;

/**
 * Vented boxes against the closed forms and alignment tables of A. N. Thiele (J. Audio Eng. Soc.
 * 19, 1971) and R. H. Small (J. Audio Eng. Soc. 21, 1973); from memory, the tables' digits
 * recomputed from their polynomials.
 */
class VentedClosedFormTest {
  private static final double OHM = 6;
  private static final double LOSSLESS = 1e12;

  /** A vented box by fs, compliance ratio a = Vas/Vb and tuning ratio h = fB/fs. */
  private record Vented(double fs, double qms, double qes, double a, double h, double leakQ) {
    double tuningHz() {
      return h * fs;
    }

    BoxModel box() {
      double vas = 0.06;
      // The leak's Q counts at the tuning in the literature and at 40 Hz in the model; R = Q/(w C).
      double leakAtReference = leakQ * Space.LOSS_REFERENCE_HZ / tuningHz();
      return new BoxModel(
          Air.AT_20_CELSIUS,
          List.of(new Space("main", vas / a)),
          List.of(
              new Mounted("driver", Driver.of(fs, qms, qes, vas, 1, OHM), "main", Space.OUTSIDE),
              new Vent("vent", tuningHz(), LOSSLESS, "main", Space.OUTSIDE),
              new Leak("leak", leakAtReference, "main", Space.OUTSIDE)),
          Circuit.coil("driver", 1));
    }

    Network network() {
      return Network.of(box());
    }

    /** A pole of the motional part, where a box without loss lets no current pass. */
    double poleHz(double low, double high) {
      Network network = network();
      return CurveReading.zeroHz(
          f -> network.impedance(f).subtract(OHM).reciprocal().getImaginary(), low, high);
    }

    double lowerPoleHz() {
      return poleHz(0.05 * Math.min(fs, tuningHz()), tuningHz() * (1 - 1e-6));
    }

    double upperPoleHz() {
      return poleHz(tuningHz() * (1 + 1e-6), 20 * Math.max(fs, tuningHz()));
    }
  }

  private static Vented lossless(double fs, double a, double h) {
    return new Vented(fs, LOSSLESS, 0.4, a, h, LOSSLESS);
  }

  @Test
  void losslessPeaksOfTheWorkedExample() {
    Vented example = lossless(37.8, 1, 1);
    assertEquals(23.36168, example.lowerPoleHz(), 5e-6);
    assertEquals(61.16168, example.upperPoleHz(), 5e-6);
  }

  @Test
  void losslessPeaksFollowTheProductAndSumRulesAndTellTheComplianceRatio() {
    long seed = 201;
    Random random = new Random(seed);
    for (int i = 0; i < 100; i++) {
      Vented drawn =
          lossless(
              DrawnModels.between(random, 18, 70),
              DrawnModels.between(random, 0.2, 6),
              DrawnModels.between(random, 0.5, 1.8));
      String where = "seed " + seed + ", " + drawn;
      double fb = drawn.tuningHz();
      double low = drawn.lowerPoleHz();
      double high = drawn.upperPoleHz();
      assertEquals(drawn.fs * fb, low * high, 1e-8 * drawn.fs * fb, where);
      double sum = drawn.fs * drawn.fs * (1 + drawn.a) + fb * fb;
      assertEquals(sum, low * low + high * high, 1e-8 * sum, where);
      double ratio = (high * high - fb * fb) * (fb * fb - low * low) / Math.pow(high * low, 2);
      assertEquals(drawn.a, ratio, 1e-7 * drawn.a, where);
    }
  }

  /**
   * QL = (h/a) [1 / (Qes (rM - 1)) - 1/Qms], rM = |Z(fM)|/Re, with the true a and h: exact where
   * the tuning is the driver's resonance, high elsewhere. Readings of a true 7 from the same
   * circuit written in SciPy, apart from this model.
   */
  @Test
  void leakReadFromTheDipIsExactAtATuningRatioOfOneAndHighElsewhere() {
    double[][] rows = { // Qms, Qes, a, h, reading
      {5, 0.41, 1.0613, 1, 7}, {3, 0.3, 2.2, 1, 7},
      {4, 0.36, 2, 1.15, 7.025316}, {6, 0.5, 0.7, 0.85, 7.098847},
      {5, 0.55, 0.6036, 0.7769, 7.262645}, {5, 0.33, 3.03, 1.2354, 7.039253}
    };
    for (double[] row : rows) {
      Vented box = new Vented(33, row[0], row[1], row[2], row[3], 7);
      Network network = box.network();
      double dip = CurveReading.dipHz(network, 0.8 * box.tuningHz(), 1.2 * box.tuningHz());
      double ratio = network.impedance(dip).abs() / OHM;
      double read = box.h / box.a * (1 / (box.qes * (ratio - 1)) - 1 / box.qms);
      assertEquals(row[4], read, 2e-6, box.toString());
    }
  }

  /**
   * fB^2 = fL^2 + fH^2 - fC^2 with losses, the vent closed for fC. Its bias and that of the |Z| dip
   * from the same circuit written in SciPy, apart from this model.
   */
  @Test
  void threeFrequencyReadingOfALossyBoxIsAHairHigh() {
    double[][] rows = {{0.7, 0.00385806}, {0.85, 0.00528777}, {1, 0.00686209}, {1.2, 0.00903719}};
    for (double[] row : rows) {
      Vented box = new Vented(33, 5, 0.4, 1.3, row[0], 7);
      Network open = box.network();
      Network closed = Network.of(box.box().without("vent"));
      double fb = box.tuningHz();
      double low = CurveReading.peakHz(open, 0.3 * Math.min(box.fs, fb), 0.9 * fb);
      double high = CurveReading.peakHz(open, 1.15 * fb, 4 * box.fs);
      double fc = CurveReading.peakHz(closed, 0.8 * box.fs, 4 * box.fs);
      double read = Math.sqrt(low * low + high * high - fc * fc);
      assertEquals(row[1], read / fb - 1, 2e-7, "h " + row[0]);
    }
  }

  @Test
  void dipOfALossyBoxTunedLowSitsAboveItsTuning() {
    Vented box = new Vented(33, 5, 0.4, 1.3, 0.7, 7);
    double dip = CurveReading.dipHz(box.network(), 0.8 * box.tuningHz(), 1.2 * box.tuningHz());
    assertEquals(1.0317175, dip / box.tuningHz(), 1e-6);
  }

  /**
   * The rows of the alignment tables: with frequency in units of sqrt(fs fB), the polynomial of the
   * response is that of the impedance driven from a voltage, D = D_open Z/Re, and |D|^2 = x^8 + A1
   * x^6 + A2 x^4 + A3 x^2 + 1. Butterworth: A1 = A2 = A3 = 0; quasi-Butterworth of third order: A1
   * = A2 = 0; equal ripple: the coefficients of a Chebyshev polynomial of order 4.
   */
  @Test
  void fourthOrderButterworthRowsAreMaximallyFlat() {
    double exactQt = 1 / Math.sqrt(4 + 2 * Math.sqrt(2));
    double[] exact = squaredResponse(exactQt, Math.sqrt(2), 1, LOSSLESS);
    double[] printed = squaredResponse(0.4048, 1.0613, 1, 7);
    for (int i = 0; i < 3; i++) {
      assertEquals(0, exact[i], 1e-9, "A" + (i + 1) + " of QT .3827, a 1.4142 without leak");
      // Half a last digit of QT moves 1/QT^2 by 1.5e-3.
      assertEquals(0, printed[i], 2e-3, "A" + (i + 1) + " of QT .4048, a 1.0613, QL 7");
    }
  }

  @Test
  void quasiButterworthRowHasTwoFlatCoefficients() {
    double[] a = squaredResponse(0.30, 3.0293, 1.2354, LOSSLESS);
    assertEquals(0, a[0], 1e-3, "A1");
    assertEquals(0, a[1], 1e-3, "A2");
    assertTrue(a[2] > 1, "A3 is " + a[2]);
  }

  /**
   * Equal ripple: |D|^2 is 1 + m (C4(u)^2 - 1) with C4 = 8 u^4 - 8 u^2 + 1 and u = k/x, so A1 = -16
   * m k^2, A2 = 80 m k^4, A3 = -128 m k^6 and 1 = 64 m k^8.
   */
  @Test
  void equalRippleRowsFollowAChebyshevPolynomial() {
    double[][] rows = {{0.50, 0.6036, 0.7769, LOSSLESS}, {0.60, 0.2749, 0.6805, 7}};
    for (double[] row : rows) {
      double[] a = squaredResponse(row[0], row[1], row[2], row[3]);
      double k2 = a[1] / (-5 * a[0]);
      double m = a[0] / (-16 * k2);
      String where =
          String.format(Locale.ROOT, "QT %.2f: A %.5f %.5f %.5f", row[0], a[0], a[1], a[2]);
      assertEquals(1, 64 * m * Math.pow(k2, 4), 3e-3, where);
      assertEquals(-128 * m * Math.pow(k2, 3), a[2], 3e-3, where);
      assertTrue(m > 0 && m < 0.5, where);
    }
  }

  /** A1, A2, A3 of |D|^2 from the impedance at three frequencies; QT is all electrical. */
  private static double[] squaredResponse(double qt, double a, double h, double leakQ) {
    Vented box = new Vented(40, LOSSLESS, qt, a, h, leakQ);
    Network network = box.network();
    double unit = Math.sqrt(box.fs * box.tuningHz());
    double[] x = {0.55, 0.9, 1.6};
    double[][] rows = new double[3][];
    double[] right = new double[3];
    for (int i = 0; i < 3; i++) {
      double square = x[i] * x[i];
      Complex response =
          network.impedance(x[i] * unit).divide(OHM).multiply(open(box, x[i] * unit));
      double squared = Math.pow(response.abs(), 2);
      rows[i] = new double[] {Math.pow(square, 3), square * square, square};
      right[i] = squared - 1 - Math.pow(square, 4);
    }
    return new LUDecomposition(MatrixUtils.createRealMatrix(rows))
        .getSolver()
        .solve(MatrixUtils.createRealVector(right))
        .toArray();
  }

  /**
   * The box with its terminals open and a driver without mechanical loss: s^4 TB^2 TS^2 + s^3 TB
   * TS^2/QL + s^2 ((a + 1) TB^2 + TS^2) + s TB/QL + 1 (Small 1973, the vented system's function).
   */
  private static Complex open(Vented box, double hz) {
    Complex s = new Complex(0, 2 * Math.PI * hz);
    double ts = 1 / (2 * Math.PI * box.fs);
    double tb = 1 / (2 * Math.PI * box.tuningHz());
    return s.pow(4)
        .multiply(tb * tb * ts * ts)
        .add(s.pow(3).multiply(tb * ts * ts / box.leakQ))
        .add(s.pow(2).multiply((box.a + 1) * tb * tb + ts * ts))
        .add(s.multiply(tb / box.leakQ))
        .add(1);
  }

  /**
   * f = (c / 2 pi) sqrt(S / (V L')) with 100 mm by 200 mm on 50 litres gives 48.41 Hz at 343.2 m/s.
   * A vent that is so much air keeps its geometry: its tuning follows the speed of sound, 1.7 % for
   * ten kelvin.
   */
  @Test
  void tuningOfAGivenVentRisesWithTheRootOfTheAirsTemperature() {
    assertEquals(48.41, geometricTuningHz(Air.at(20)), 0.005);
    double low = lowerTimesUpper(Air.at(10));
    double high = lowerTimesUpper(Air.at(30));
    assertEquals(Math.sqrt(303.15 / 283.15), high / low, 1e-9);
    assertEquals(1.0174, lowerTimesUpper(Air.at(30)) / lowerTimesUpper(Air.at(20)), 0.0005);
  }

  private static double geometricTuningHz(Air air) {
    double area = Math.PI * 0.05 * 0.05;
    return air.soundMPerS() / (2 * Math.PI) * Math.sqrt(area / (0.05 * 0.2));
  }

  /** fL fH / fs of the solved lossless box with that vent: its tuning by the product rule. */
  private static double lowerTimesUpper(Air air) {
    Vented box = lossless(40, 1.2, geometricTuningHz(air) / 40);
    return box.lowerPoleHz() * box.upperPoleHz() / box.fs;
  }
}
