package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigInteger;
import java.util.Base64;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Drive codes against floating point, and steps against integers of any size. */
class WaveTest {
  private static final double PERIOD = 4_294_967_296.0;

  private final CountingWorld world = CountingWorld.quiet();
  private final Terminal terminal = new Terminal(new VirtualJig(world, JigSetup.standard()));

  /** A wave of -1 to 1 over a phase of 0 to 1. */
  private interface Ideal {
    double at(double phase);
  }

  private static long field(String line, String key) {
    int at = line.indexOf(" " + key + "=") + key.length() + 2;
    int end = line.indexOf(' ', at);
    return Long.parseLong(line.substring(at, end < 0 ? line.length() : end));
  }

  private void assertFollows(String reply, int level, int dc, Ideal ideal) {
    long step = field(reply, "step");
    long tick = field(reply, "tick");
    double worst = 0;
    for (int n = 0; n < 1400; n++) {
      double phase = (n * step % 4_294_967_296L) / PERIOD;
      double expected = 512 + dc + level * ideal.at(phase);
      worst = Math.max(worst, Math.abs(world.driveCode(tick + n) - expected));
    }
    // Half a step is rounding; the specification leaves one step in all.
    assertTrue(worst <= 1, "a code is " + worst + " steps off: " + reply);
  }

  @Test
  void toneIsASineWithinOneStep() {
    terminal.run(50);
    Random random = new Random(7);
    for (int level : new int[] {0, 1, 2, 17, 300, 511}) {
      int dc = random.nextInt(512 - level) * (random.nextBoolean() ? 1 : -1);
      long step = random.nextInt(Integer.MAX_VALUE);
      String reply =
          terminal.ask("1 play wave=tone step=" + step + " level=" + level + " dc=" + dc).get(0);
      assertFollows(reply, level, dc, phase -> Math.sin(2 * Math.PI * phase));
    }
  }

  @Test
  void slowToneReachesItsCrestsAndCrossesZeroExactly() {
    terminal.run(50);
    // 2^32 / 1024: a period of 1024 ticks, quarters at whole ticks.
    String reply = terminal.ask("1 play wave=tone step=4194304 level=511").get(0);
    long tick = field(reply, "tick");
    assertEquals(512, world.driveCode(tick));
    assertEquals(1023, world.driveCode(tick + 256));
    assertEquals(512, world.driveCode(tick + 512));
    assertEquals(1, world.driveCode(tick + 768));
    assertFollows(reply, 511, 0, phase -> Math.sin(2 * Math.PI * phase));
  }

  @Test
  void tableIsInterpolatedWithinOneStep() {
    long seed = 99;
    Random random = new Random(seed);
    terminal.run(50);
    for (int points = 16; points <= 1024; points *= 8) {
      byte[] table = new byte[points];
      random.nextBytes(table);
      for (int at = 0; at < points; at += 48) {
        byte[] part = java.util.Arrays.copyOfRange(table, at, Math.min(points, at + 48));
        assertEquals(
            List.of("1 ok points=" + part.length),
            terminal.ask("1 load at=" + at + " data=" + Base64.getEncoder().encodeToString(part)));
      }
      String reply =
          terminal.ask("2 play wave=table points=" + points + " step=7654321 level=500").get(0);
      assertFollows(reply, 500, 0, phase -> interpolate(table, phase));
      terminal.ask("3 stop");
    }
  }

  private static double interpolate(byte[] table, double phase) {
    double position = phase * table.length;
    int index = (int) position;
    double here = Math.max(-127, table[index]) / 127.0;
    double next = Math.max(-127, table[(index + 1) % table.length]) / 127.0;
    return here + (position - index) * (next - here);
  }

  @Test
  void constantDriveIsHeldAndStopBringsMidScale() {
    terminal.run(50);
    terminal.ask("1 play wave=dc dc=-200");
    assertEquals(312, world.lastDriveCode());
    terminal.ask("2 stop");
    assertEquals(512, world.lastDriveCode());
  }

  @Test
  void millihertzTurnIntoTheNearestStepHalfUp() {
    Random random = new Random(34);
    terminal.run(50);
    for (int i = 0; i < 200; i++) {
      int millihertz = i == 0 ? 2_000_000 : i == 1 ? 1 : 1 + random.nextInt(2_000_000);
      // round(millihertz x 2^32 x 1024 / (16e6 x 1000)), half up: floor of twice it plus one,
      // halved
      BigInteger numerator =
          BigInteger.valueOf(millihertz).shiftLeft(32).multiply(BigInteger.valueOf(1024));
      BigInteger divisor = BigInteger.valueOf(16_000_000_000L);
      BigInteger expected = numerator.shiftLeft(1).add(divisor).divide(divisor.shiftLeft(1));
      terminal.send("1 play wave=tone level=0 millihertz=" + millihertz);
      String reply = terminal.run(120).get(0);
      assertEquals(expected.longValueExact(), field(reply, "step"), millihertz + " mHz, seed 34");
    }
  }

  @Test
  void loadWhileATablePlaysIsRefusedAndHalts() {
    terminal.run(50);
    terminal.ask("1 play wave=table points=16 step=1 level=0");
    assertEquals(
        List.of("! halted cause=refused", "2 no 31 busy"), terminal.ask("2 load at=0 data=AAAA"));
    assertEquals(List.of("3 ok points=3"), terminal.ask("3 load at=0 data=AAAA"));
  }
}
