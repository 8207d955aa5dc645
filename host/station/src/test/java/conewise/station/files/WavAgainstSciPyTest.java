package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** WAV files of another hand: written and read by SciPy (scipy.io.wavfile) and Python's wave. */
class WavAgainstSciPyTest {

  private static final Path PYTHON = Path.of("/usr/bin/python3");
  private static final long PATIENCE_SECONDS = 60;

  @TempDir Path directory;

  @BeforeEach
  void needSciPy() throws Exception {
    boolean there = Files.isExecutable(PYTHON) && run("import scipy.io.wavfile") == 0;
    if ("true".equals(System.getenv("CI"))) {
      assertTrue(there, "python3 with SciPy must be there when CI=true");
    }
    assumeTrue(there, "python3 with SciPy is not installed");
  }

  // The samples are k/1000 of full scale, k from -3 to 3, and half of it with the sign turned.
  @ParameterizedTest
  @CsvSource({"int16,32768", "int32,2147483648", "float32,1"})
  void readsWhatSciPyWrites(String type, double steps) throws Exception {
    int status =
        run(
            """
            import sys, numpy, scipy.io.wavfile as w
            k = numpy.arange(-3, 4) / 1000 * STEPS
            a = numpy.stack([k, -k / 2], axis=1)
            a = a if STEPS == 1 else numpy.round(a)
            w.write('FILE', 7000, a.astype('TYPE'))
            """,
            type,
            steps);
    assertEquals(0, status);
    Capture capture = read();
    for (int k = -3; k <= 3; k++) {
      // Rounding to half a step, or to float's 24 digits.
      double step = Math.max(0.5 / steps, 1e-10);
      assertEquals(k / 1000.0, capture.voltageVolt().values()[k + 3], steps == 1 ? 3e-10 : step);
      assertEquals(-k / 2000.0, capture.currentAmpere().values()[k + 3], steps == 1 ? 3e-10 : step);
    }
    assertEquals(1 / 7000.0, capture.voltageVolt().intervalSeconds());
  }

  @Test
  void readsTwentyFourBitsThatPythonsOwnModuleWrites() throws Exception {
    int status =
        run(
            """
            import wave
            f = wave.open('FILE', 'wb')
            f.setnchannels(2); f.setsampwidth(3); f.setframerate(96000)
            for v in (0, 1, -1, 4194304, -8388608, 8388607):
                f.writeframes(v.to_bytes(3, 'little', signed=True))
            f.close()
            """);
    assertEquals(0, status);
    Capture capture = read();
    assertArrayEquals(
        new double[] {0, -1 / 8388608.0, -1}, capture.voltageVolt().values(), "left channel");
    assertArrayEquals(
        new double[] {1 / 8388608.0, 0.5, 8388607 / 8388608.0},
        capture.currentAmpere().values(),
        "right channel");
    assertEquals(1, capture.voltageVolt().saturatedCount());
    assertEquals(1, capture.currentAmpere().saturatedCount());
  }

  @ParameterizedTest
  @EnumSource(WavCoding.class)
  void writesWhatSciPyReads(WavCoding coding) throws Exception {
    double[] volt = {0, 0.5, -0.25};
    double[] ampere = {-1, 0.125, 0};
    Capture capture =
        new Capture(
            SampledChannel.of(volt, 0, 1.0 / 48000), SampledChannel.of(ampere, 0, 1.0 / 48000));
    WavRecording.write(file(), capture, WavScales.of(1, 1), coding, Existing.REFUSE);
    // SciPy gives 24 bits as the upper ones of 32.
    double steps =
        switch (coding) {
          case PCM_16 -> 32768;
          case PCM_24, PCM_32 -> 2147483648.0;
          case FLOAT_32 -> 1;
        };
    int status =
        run(
            """
            import sys, scipy.io.wavfile as w
            rate, a = w.read('FILE')
            want = [[0, -1], [.5, .125], [-.25, 0]]
            sys.exit(0 if rate == 48000 and (a / STEPS).tolist() == want else 3)
            """,
            "",
            steps);
    assertEquals(0, status);
  }

  private Path file() {
    return directory.resolve("outside.wav");
  }

  private Capture read() throws BadFileException {
    return WavRecording.read(file(), WavScales.of(1, 1), Progress.UNHEARD);
  }

  private int run(String script) throws IOException, InterruptedException {
    return run(script, "", 1);
  }

  private int run(String script, String type, double steps)
      throws IOException, InterruptedException {
    String text =
        script
            .replace("FILE", file().toString())
            .replace("TYPE", type)
            .replace("STEPS", Double.toString(steps));
    Path code = Files.writeString(directory.resolve("script.py"), text, StandardCharsets.UTF_8);
    Process process =
        new ProcessBuilder(PYTHON.toString(), code.toString())
            .redirectErrorStream(true)
            .redirectOutput(directory.resolve("script.log").toFile())
            .start();
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new IOException("python3 did not end within " + PATIENCE_SECONDS + " s");
    }
    return process.exitValue();
  }
}
