package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.fail;

import conewise.station.files.MeasurementFile.Content;
import conewise.station.files.MeasurementFile.Options;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever stands in a file, either a measurement or one sentence comes out. */
class MeasurementFuzzTest {

  private static final int MUTATIONS = 1000;

  /** Not a measure of speed: a guard against an endless loop. */
  private static final Duration PATIENCE = Duration.ofMinutes(2);

  @TempDir Path directory;

  static Stream<Arguments> goodFiles() {
    return Stream.of(
        Arguments.of(
            "a.csv",
            text(
                """
                # words
                frequency_hz,resistance_ohm,reactance_ohm,standard_uncertainty_ohm
                20,18.42,9.75,0.08
                27.9,20.7,-0.3,
                33.1,4.5e0,-.1,0.02
                """)),
        Arguments.of("a.s1p", text("! words\n# kHz S DB R 50\n0.02 -6 10 ! c\n0.03 -7 -170\n")),
        Arguments.of(
            "b.csv",
            text(
                """
                # sample_rate_hz: 7812.5
                # current_delay_s: 6.4e-5
                # voltage_rail_v: 1 none
                voltage_v,current_a
                0.1,0.2
                -0.3,4e-3
                """)),
        Arguments.of(
            "a.wav",
            WavBytes.file(WavBytes.extensible(48000, 24, 24, 1), WavBytes.data(1, 2, 3, 4, 5, 6))),
        Arguments.of(
            "b.wav",
            WavBytes.file(
                WavBytes.header(3, 2, 8000, 32), WavBytes.data(0, 0, 0x80, 0x3F, 0, 0, 0, 0))));
  }

  @ParameterizedTest
  @MethodSource("goodFiles")
  void onlyAMeasurementOrASentenceComesOut(String name, byte[] good) {
    long first = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("fuzz " + name + ": -Dconewise.seed=" + first);
    assertTimeoutPreemptively(
        PATIENCE,
        () -> {
          for (long seed = first; seed < first + MUTATIONS; seed++) {
            readOne(name, Mutations.of(good, new Random(seed)), seed);
          }
        });
  }

  private void readOne(String name, byte[] bytes, long seed) {
    Path file = Texts.file(directory, name, bytes);
    try {
      Content content = MeasurementFile.read(file, Options.of(WavScales.of(2, 3)));
      // The records themselves refuse NaN; here only that something came.
      assertFalse(content.toString().contains("NaN"), "seed " + seed);
    } catch (BadFileException e) {
      assertFalse(e.getMessage().contains("\n"), "seed " + seed + ": " + e.getMessage());
      assertFalse(e.getMessage().contains("Exception"), "seed " + seed + ": " + e.getMessage());
    } catch (RuntimeException e) {
      fail("seed " + seed + " brought out " + e, e);
    }
  }

  private static byte[] text(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
