package conewise.analysis.spectrum;

import static conewise.analysis.sampling.Samples.found;
import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.outcome.Interval;
import conewise.analysis.outside.SystemPython;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.FittedTone;
import conewise.analysis.sampling.SampledChannel;
import conewise.analysis.sampling.ToneFit;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The same data through NumPy's lstsq and SciPy's csd, run by the system's Python. */
class ScipyComparisonTest {

  private static final long SEED = 90;

  @TempDir Path folder;

  @BeforeAll
  static void pythonIsThere() throws IOException, InterruptedException {
    SystemPython.require();
  }

  @Test
  void tonesOffsetAndTheirVariancesEqualThoseOfLstsq() throws Exception {
    double[] hz = {23, 27.5, 101.3};
    double[] x = new Random(SEED).doubles(700, -1, 1).toArray();
    for (int k = 0; k < x.length; k++) {
      x[k] += 3 + 2 * Math.cos(0.15 * k);
    }
    List<double[]> rows =
        python(
            """
            import sys, numpy as np
            x = np.loadtxt(sys.argv[1])
            t = 0.4 + 1e-3 * np.arange(len(x))
            hz = np.array([23, 27.5, 101.3])
            angle = 2 * np.pi * np.outer(t, hz)
            a = np.hstack([np.cos(angle), -np.sin(angle), np.ones((len(t), 1))])
            p, r, _, _ = np.linalg.lstsq(a, x, rcond=None)
            s2 = r[0] / (len(x) - 7)
            c = s2 * np.linalg.inv(a.T @ a)
            for i in range(3):
                print(float(p[i]), float(p[3 + i]), float(c[i, i]), float(c[3 + i, 3 + i]),
                      float(c[i, 3 + i]), float(p[6]), float(s2))
            """,
            x);
    ToneFit fit = found(ToneFit.of(SampledChannel.of(x, 0.4, 1e-3), hz));
    for (int i = 0; i < 3; i++) {
      FittedTone tone = fit.tones().get(i);
      double[] row = rows.get(i);
      String where = "tone " + i + ", seed " + SEED;
      assertEquals(row[0], tone.phasor().getReal(), 1e-11, where);
      assertEquals(row[1], tone.phasor().getImaginary(), 1e-11, where);
      assertEquals(row[5], fit.offset(), 1e-11, where);
      assertEquals(row[6], fit.residualVariance(), 1e-11, where);
      // The strong line at 23.87 Hz raises the noise seen next to a tone; scale to compare.
      double scale = tone.noiseVariance() / fit.residualVariance();
      assertEquals(row[2] * scale, tone.varianceReal(), 1e-11, where);
      assertEquals(row[3] * scale, tone.varianceImaginary(), 1e-11, where);
      assertEquals(row[4] * scale, tone.covariance(), 1e-11, where);
    }
  }

  /**
   * SciPy's Hann is sampled on whole instead of half steps, so its window is handed over as ours.
   */
  @Test
  void impedanceAndCoherenceEqualThoseOfCsd() throws Exception {
    Random random = new Random(SEED);
    int count = 20_000;
    double[] both = new double[2 * count];
    for (int k = 0; k < count; k++) {
      both[count + k] = random.nextGaussian();
      both[k] = 6 * both[count + k] - (k > 0 ? 2 * both[count + k - 1] : 0);
      both[k] += 0.5 * random.nextGaussian();
    }
    List<double[]> rows =
        python(
            """
            import sys, numpy as np
            from scipy import signal
            v, i = np.split(np.loadtxt(sys.argv[1]), 2)
            n = 2048
            w = 0.5 - 0.5 * np.cos(2 * np.pi * (np.arange(n) + 0.5) / n)
            p = dict(fs=1000.0, window=w, nperseg=n, noverlap=n // 2, detrend='constant')
            f, iv = signal.csd(i, v, **p)
            ii = signal.welch(i, **p)[1]
            vv = signal.welch(v, **p)[1]
            z = iv / ii
            for k in range(len(f)):
                if 10 <= f[k] <= 400:
                    print(float(f[k]), float(z[k].real), float(z[k].imag),
                          float(abs(iv[k]) ** 2 / (ii[k] * vv[k])))
            """,
            both);
    Capture capture =
        new Capture(
            SampledChannel.of(Arrays.copyOf(both, count), 0, 1e-3),
            SampledChannel.of(Arrays.copyOfRange(both, count, 2 * count), 0, 1e-3));
    AveragedSpectra spectra =
        AveragedSpectra.overSegments(capture, new Interval(10, 400)).orElseThrow();
    assertEquals(rows.size(), spectra.size());
    for (int k = 0; k < rows.size(); k++) {
      assertEquals(rows.get(k)[0], spectra.frequencyHz(k), 1e-9);
      assertEquals(rows.get(k)[1], spectra.sums(k).impedance().getReal(), 1e-9, "seed " + SEED);
      assertEquals(rows.get(k)[2], spectra.sums(k).impedance().getImaginary(), 1e-9);
      assertEquals(rows.get(k)[3], spectra.sums(k).coherence(), 1e-9, "seed " + SEED);
    }
  }

  private List<double[]> python(String script, double[] data) throws Exception {
    return SystemPython.run(folder, script, data);
  }
}
