package conewise.station.tone;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.analysis.sampling.Capture;
import conewise.station.files.BadFileException;
import conewise.station.files.Progress;
import conewise.station.files.WavRecording;
import conewise.station.files.WavScales;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ToneWaveTest {
  private static final Path PYTHON = Path.of("/usr/bin/python3");

  @TempDir Path folder;

  private Capture written(ToneWave wave) throws BadFileException {
    Path file = folder.resolve("tone.wav");
    wave.write(file);
    return WavRecording.read(file, WavScales.of(1, 1), Progress.UNHEARD);
  }

  /** Rising zero crossings between the fades, each by a straight line: count over time. */
  private static double frequencyOf(double[] samples) {
    int from = (int) (ToneWave.FADE_SECONDS * ToneWave.RATE_HZ) + 1;
    int to = samples.length - from;
    double first = -1;
    double last = -1;
    int crossings = 0;
    for (int k = from; k < to; k++) {
      if (samples[k - 1] < 0 && samples[k] >= 0) {
        last = k - samples[k] / (samples[k] - samples[k - 1]);
        first = first < 0 ? last : first;
        crossings++;
      }
    }
    return (crossings - 1) * (double) ToneWave.RATE_HZ / (last - first);
  }

  @Test
  void theFileReadBackHasTheFrequencyAndTheLevelThatWereAskedFor() throws Exception {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    for (int i = 0; i < 8; i++) {
      double hz = 10 * Math.pow(20, random.nextDouble());
      double part = 0.01 + 0.8 * random.nextDouble();
      Capture read = written(new ToneWave(hz, 3, part));
      double[] left = read.voltageVolt().values();
      assertEquals(hz, frequencyOf(left), 1e-5 * hz, "seed " + seed);
      double peak = 0;
      for (double sample : left) {
        peak = Math.max(peak, Math.abs(sample));
      }
      // A peak falls at most half a sample beside a sample: 1 - cos(pi f / rate).
      double missed = 1 - Math.cos(Math.PI * hz / ToneWave.RATE_HZ);
      assertEquals(part, peak, part * missed + 1e-6, "seed " + seed);
      assertEquals(0, read.voltageVolt().saturatedCount(), "seed " + seed);
    }
  }

  @Test
  void bothChannelsAreAlikeAndItBeginsAndEndsInSilenceWithoutAClick() throws Exception {
    Capture read = written(new ToneWave(40, 2, 0.5));
    double[] left = read.voltageVolt().values();
    double[] right = read.currentAmpere().values();
    assertEquals(2 * ToneWave.RATE_HZ, left.length);
    assertEquals(0, left[0]);
    assertEquals(0, left[left.length - 1]);
    // A sine alone changes by at most its amplitude times 2 pi f / rate from sample to sample.
    double steepest = 0.5 * 2 * Math.PI * 40 / ToneWave.RATE_HZ;
    for (int k = 1; k < left.length; k++) {
      assertEquals(left[k], right[k]);
      assertTrue(Math.abs(left[k] - left[k - 1]) < 1.1 * steepest, "sample " + k);
    }
  }

  @Test
  void numpyFindsTheSameFrequencyAndNothingElse() throws Exception {
    boolean there =
        Files.isExecutable(PYTHON) && python("import numpy, scipy.io.wavfile\n", 0) == 0;
    if (!"true".equals(System.getenv("CI"))) {
      assumeTrue(there, "python3 with numpy and scipy is not installed");
    }
    assertTrue(there, "python3 with numpy and scipy is needed where CI=true");
    double hz = 34.27;
    new ToneWave(hz, 10, 0.5).write(folder.resolve("tone.wav"));
    // Parabola through the logarithms about the highest bin of a windowed transform.
    String script =
        """
        import numpy as n, scipy.io.wavfile as w, sys
        rate, a = w.read('FILE')
        x = a[:, 0] / 2.0 ** 31
        m = n.log(n.abs(n.fft.rfft(x * n.blackman(len(x)), 4 * len(x))) + 1e-30)
        k = int(n.argmax(m))
        d = (m[k - 1] - m[k + 1]) / (m[k - 1] - 2 * m[k] + m[k + 1]) / 2
        f = (k + d) * rate / (4 * len(x))
        far = n.exp(m[int(3 * 40 * len(x) / rate * 4):].max() - m[k])
        print(rate, a.shape, f, far)
        sys.exit(0 if rate == 48000 and a.shape[1] == 2 and abs(f - HZ) < 2e-4 and far < 1e-5 else 3)
        """;
    assertEquals(0, python(script, hz), () -> text(folder.resolve("log.txt")));
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (java.io.IOException e) {
      return e.toString();
    }
  }

  private int python(String script, double hz) throws Exception {
    String text =
        script
            .replace("FILE", folder.resolve("tone.wav").toString())
            .replace("HZ", Double.toString(hz));
    Path code = Files.writeString(folder.resolve("s.py"), text, StandardCharsets.UTF_8);
    Process process =
        new ProcessBuilder(PYTHON.toString(), code.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log.txt").toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS), "python3 did not end within 60 s");
    return process.exitValue();
  }

  @Test
  void whatWouldHarmOrCannotBePlayedIsRefusedWithItsLimit() {
    assertThrows(IllegalArgumentException.class, () -> new ToneWave(4.9, 10, 0.2));
    assertThrows(IllegalArgumentException.class, () -> new ToneWave(501, 10, 0.2));
    assertThrows(IllegalArgumentException.class, () -> new ToneWave(Double.NaN, 10, 0.2));
    assertThrows(IllegalArgumentException.class, () -> new ToneWave(40, 61, 0.2));
    String told =
        assertThrows(IllegalArgumentException.class, () -> new ToneWave(40, 10, 0.95)).getMessage();
    assertTrue(told.contains("0.95") && told.contains("0.9"), told);
  }
}
