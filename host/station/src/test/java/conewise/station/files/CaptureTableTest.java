package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CaptureTableTest {

  @TempDir Path directory;

  @Test
  void readsNotesAndSamples() throws BadFileException {
    Capture capture =
        read(
            """
            # Sample_Rate_Hz : 8000
            # current_delay_s: 6.25e-5
            # any words: here
            # voltage_rail_v: 2
            # current_rail_a: -0.5 0.25
            current_a,voltage_v
            0.1,1
            0.25,2
            -0.5,-2.5
            """);
    assertArrayEquals(new double[] {1, 2, -2.5}, capture.voltageVolt().values());
    assertArrayEquals(new double[] {0.1, 0.25, -0.5}, capture.currentAmpere().values());
    assertEquals(1.25e-4, capture.voltageVolt().intervalSeconds());
    assertEquals(0, capture.voltageVolt().firstInstantSeconds());
    assertEquals(6.25e-5, capture.currentAmpere().firstInstantSeconds());
    assertEquals(2, capture.voltageVolt().saturatedCount());
    assertEquals(2, capture.currentAmpere().saturatedCount());
  }

  @Test
  void knowsNoRailAndNoDelayUnlessTold() throws BadFileException {
    Capture capture = read("# sample_rate_hz: 10\nvoltage_v,current_a\n1e9,1e9\n");
    assertEquals(0, capture.voltageVolt().saturatedCount());
    assertEquals(0, capture.currentAmpere().firstInstantSeconds());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "voltage_v,current_a~1,2 | line 2 | sample_rate_hz",
        "# sample_rate: 8~voltage_v,current_a~1,2 | line 1 | write sample_rate_hz",
        "# sample_rate_hz: 8~# current_delay_us: 64~voltage_v,current_a~1,2 | line 2 |"
            + " current_delay_s",
        "# sample_rate_hz: 0~voltage_v,current_a~1,2 | line 1 | above 0",
        "# sample_rate_hz: -8~voltage_v,current_a~1,2 | line 1 | above 0",
        "# sample_rate_hz: 48 kHz~voltage_v,current_a~1,2 | line 1 | \"48 kHz\"",
        "# sample_rate_hz: 8~# sample_rate_hz: 9~voltage_v,current_a~1,2 | line 2 | twice",
        "# sample_rate_hz: 8~# current_delay_s: 64~voltage_v,current_a~1,2 | line 2 | at most 1 s",
        "# sample_rate_hz: 8~# voltage_rail_v: -1~voltage_v,current_a~1,2 | line 2 | above 0",
        "# sample_rate_hz: 8~# voltage_rail_v: 3 1~voltage_v,current_a~1,2 | line 2 | from 3.0 to"
            + " 1.0",
        "# sample_rate_hz: 8~voltage_v,current_a~1,2~# current_delay_s: 0.1~2,3 | line 4 | above"
            + " the first",
        "# sample_rate_hz: 8~voltage_v,current_a~1,inf | line 3, column current_a | \"inf\"",
        "# sample_rate_hz: 8~voltage_v,current_a | c.csv | at least one",
        "# sample_rate_hz: 8~voltage_v,current_ma~1,2 | line 2 | current_a is near",
      })
  void refusesByLine(String text, String where, String what) {
    String message = Texts.refusal(() -> read(text.replace('~', '\n') + "\n"));
    assertTrue(message.contains(where) && message.contains(what), message);
  }

  @ParameterizedTest
  @ValueSource(doubles = {49, 8000, 7812.5, 44100, 48000, 96000, 192000, 3, 0.1, 12345.678})
  void keepsTheDigitsOfASampleRateThroughAnyNumberOfRoundTrips(double rate)
      throws BadFileException {
    assertEquals(rate, SampleRate.ofInterval(1 / rate));
  }

  @Test
  void givesBackTheVeryCaptureThatWasWritten() throws BadFileException {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    double[] volt = random.doubles(1000, -3, 3).toArray();
    double[] ampere = random.doubles(1000, -1e-3, 1e-3).toArray();
    Capture capture =
        new Capture(
            new SampledChannel(volt, 0, 1 / 7812.5, -2.5, 2.4951),
            new SampledChannel(ampere, 6.4e-5, 1 / 7812.5, Double.NEGATIVE_INFINITY, 0.5));
    Path file = directory.resolve("round.csv");
    CaptureTable.write(file, capture, Existing.REFUSE);
    Capture back = CaptureTable.read(file, Progress.UNHEARD);
    assertSame(capture.voltageVolt(), back.voltageVolt(), seed);
    assertSame(capture.currentAmpere(), back.currentAmpere(), seed);
  }

  static void assertSame(SampledChannel was, SampledChannel is, long seed) {
    String message = "seed " + seed;
    assertArrayEquals(was.values(), is.values(), message);
    assertEquals(was.firstInstantSeconds(), is.firstInstantSeconds(), message);
    assertEquals(was.intervalSeconds(), is.intervalSeconds(), message);
    assertEquals(was.lowRail(), is.lowRail(), message);
    assertEquals(was.highRail(), is.highRail(), message);
  }

  private Capture read(String text) throws BadFileException {
    return CaptureTable.read(Texts.file(directory, "c.csv", text), Progress.UNHEARD);
  }
}
