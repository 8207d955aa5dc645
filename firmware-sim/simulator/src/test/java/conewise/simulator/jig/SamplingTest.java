package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** What is sampled when. The world's codes tell the tick, so the instants are read off the data. */
class SamplingTest {
  private static final String ALPHABET =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

  private final Terminal counting =
      new Terminal(new VirtualJig(CountingWorld.countingTicks(), JigSetup.standard()));

  /** The values of all blocks, read by hand from the text (RFC 4648, table 1). */
  private static List<Integer> values(List<String> lines, int digits) {
    List<Integer> values = new ArrayList<>();
    for (String line : lines) {
      if (line.startsWith(": ")) {
        String data = line.substring(10);
        for (int i = 0; i < data.length(); i += digits) {
          int value = 0;
          for (int digit = 0; digit < digits; digit++) {
            value = value * 64 + ALPHABET.indexOf(data.charAt(i + digit));
          }
          values.add(value);
        }
      }
    }
    return values;
  }

  private static long field(String line, String key) {
    int at = line.indexOf(" " + key + "=") + key.length() + 2;
    int end = line.indexOf(' ', at);
    return Long.parseLong(line.substring(at, end < 0 ? line.length() : end));
  }

  private static int codeAt(long tick) {
    return (int) (tick % 1000) + 1;
  }

  private void assertInstants(int channels, int skip) {
    counting.run(173);
    List<String> lines =
        counting.ask("2 record channels=" + channels + " frames=100 skip=" + skip + " decimate=1");
    long first = field(lines.get(0), "first_tick");
    long interval = field(lines.get(0), "interval_ticks");
    assertEquals(channels, interval);
    List<Integer> values = values(lines, 2);
    assertEquals(100 * channels, values.size());
    for (int k = 0; k < 100; k++) {
      for (int channel = 0; channel < channels; channel++) {
        assertEquals(
            codeAt(first + k * interval + channel),
            values.get(k * channels + channel),
            "frame " + k + ", channel " + channel);
      }
    }
  }

  @Test
  void secondChannelIsTakenOneTickAfterTheFirst() {
    assertInstants(2, 0);
  }

  @Test
  void thirdChannelIsTakenTwoTicksAfterTheFirst() {
    assertInstants(3, 0);
  }

  @Test
  void skippedFramesMoveTheFirstTickByTheirTime() {
    assertInstants(2, 41);
    assertInstants(3, 17);
  }

  @Test
  void decimatedRecordIsTheSumsOfTheRawOne() {
    long seed = 20_251_125;
    int[] noise = new Random(seed).ints(5000, 1, 1023).toArray();
    for (int channels = 2; channels <= 3; channels++) {
      for (int decimate = 2; decimate <= 256; decimate *= 4) {
        assertSums(seed, noise, channels, decimate);
      }
    }
  }

  private static void assertSums(long seed, int[] noise, int channels, int decimate) {
    Terminal terminal =
        new Terminal(
            new VirtualJig(
                new CountingWorld((tick, channel) -> noise[(int) (tick % noise.length)]),
                JigSetup.standard()));
    terminal.run(100);
    List<String> lines =
        terminal.ask("1 record channels=" + channels + " frames=2 skip=1 decimate=" + decimate);
    long first = field(lines.get(0), "first_tick");
    assertEquals((long) channels * decimate, field(lines.get(0), "interval_ticks"));
    List<Integer> expected = new ArrayList<>();
    for (int k = 0; k < 2; k++) {
      for (int channel = 0; channel < channels; channel++) {
        int sum = 0;
        for (int frame = 0; frame < decimate; frame++) {
          long tick = first + ((long) k * decimate + frame) * channels + channel;
          sum += noise[(int) (tick % noise.length)];
        }
        expected.add(sum);
      }
    }
    String message = channels + " channels, decimate " + decimate + ", seed " + seed;
    List<Integer> values = values(lines, 3);
    assertTrue(values.stream().allMatch(value -> value > 0), message);
    assertEquals(expected, values, message);
  }

  @Test
  void endLineTellsTheExtremesOfWhatWasSentAndNotOfWhatWasSkipped() {
    CountingWorld world =
        new CountingWorld(
            (tick, channel) -> tick < 300 ? 1020 : channel == 0 ? 500 + (int) (tick % 7) : 300);
    Terminal terminal = new Terminal(new VirtualJig(world, JigSetup.standard()));
    terminal.run(100);
    List<String> lines = terminal.ask("1 record channels=2 frames=64 skip=150 decimate=1");
    assertEquals(
        "! recorded record=1 frames=64 blocks=2 complete=yes low=500,300 high=506,300",
        lines.get(lines.size() - 1));
  }

  @Test
  void topCodesAtTheGreatestDecimationFitThreeDigits() {
    Terminal terminal =
        new Terminal(
            new VirtualJig(new CountingWorld((tick, channel) -> 1023), JigSetup.standard()));
    terminal.run(100);
    List<String> lines = terminal.ask("1 record channels=2 frames=1 skip=0 decimate=256");
    assertEquals(List.of(1023 * 256, 1023 * 256), values(lines, 3));
  }

  @Test
  void recordIdsRunFrom1To255AndBeginAgain() {
    counting.run(100);
    for (int record = 1; record <= 256; record++) {
      counting.send("1 record channels=2 frames=1 skip=0 decimate=1");
      List<String> lines = counting.run(150);
      assertEquals((record - 1) % 255 + 1, field(lines.get(0), "record"));
    }
  }

  @Test
  void stoppedRecordTellsOnlyWhatWasSent() {
    counting.run(100);
    counting.send("1 record channels=2 frames=1000 skip=0 decimate=1");
    List<String> before = counting.run(500);
    List<String> after = counting.ask("2 stop");
    List<String> all = new ArrayList<>(before);
    all.addAll(after);
    long blocks = all.stream().filter(line -> line.startsWith(": ")).count();
    String end = after.get(after.size() - 2);
    assertEquals("2 ok", after.get(after.size() - 1));
    assertTrue(end.startsWith("! recorded record=1 "), end);
    assertTrue(end.contains(" complete=no "), end);
    assertEquals(blocks, field(end, "blocks"));
    assertEquals(32 * blocks, field(end, "frames"));
  }
}
