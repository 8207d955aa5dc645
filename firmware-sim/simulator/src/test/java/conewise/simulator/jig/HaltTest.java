package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** When the jig stops by itself. Times are those of the specification; a second is 15 625 ticks. */
class HaltTest {
  private static final int SECOND = 15_625;

  private final CountingWorld world = CountingWorld.quiet();
  private final VirtualJig jig = new VirtualJig(world, JigSetup.standard());
  private final Terminal terminal = new Terminal(jig);

  private static Terminal clipping(int clippedOfTen, int channel) {
    CountingWorld world =
        new CountingWorld((tick, c) -> c == channel && tick / 2 % 10 < clippedOfTen ? 1023 : 512);
    Terminal terminal = new Terminal(new VirtualJig(world, JigSetup.standard()));
    terminal.run(50);
    return terminal;
  }

  @Test
  void silenceOfTwoSecondsEndsAWave() {
    terminal.run(50);
    terminal.ask("1 play wave=dc dc=100");
    assertEquals(List.of(), terminal.run(2 * SECOND - 2000));
    assertEquals(612, world.lastDriveCode());
    assertEquals(List.of("! halted cause=silence"), terminal.run(1000));
    assertEquals(512, world.lastDriveCode());
    assertEquals("blink", jig.lamp("busy"));
  }

  @Test
  void anyValidRequestPutsTheSilenceStopOff() {
    terminal.run(50);
    terminal.ask("1 play wave=dc dc=1");
    for (int i = 0; i < 5; i++) {
      assertEquals(List.of(), terminal.run(SECOND + SECOND / 2));
      assertEquals(1, terminal.ask("2 status").size());
    }
    assertEquals(513, world.lastDriveCode());
  }

  @Test
  void emptyLinesDoNotCountAsRequests() {
    terminal.run(50);
    terminal.ask("1 play wave=dc dc=1");
    terminal.run(SECOND);
    terminal.sendRaw("\n\r\n");
    assertEquals(List.of("! halted cause=silence"), terminal.run(SECOND));
  }

  @Test
  void refusalEndsWaveAndRecordInTheOrderOfTheSpecification() {
    terminal.run(50);
    terminal.ask("1 play wave=dc dc=100");
    terminal.send("2 record channels=2 frames=10000 skip=0 decimate=1");
    terminal.run(40);
    List<String> lines = terminal.ask("3 measure");
    int end = lines.size();
    assertTrue(lines.get(end - 3).startsWith("! recorded record=1 "), lines.toString());
    assertEquals("! halted cause=refused", lines.get(end - 2));
    assertEquals("3 no 20 verb-unknown", lines.get(end - 1));
    assertEquals(512, world.lastDriveCode());
  }

  @Test
  void clippingOfMoreThanHalfOfTheFramesForHalfASecondHalts() {
    for (int channel = 0; channel < 2; channel++) {
      Terminal clipping = clipping(6, channel);
      clipping.ask("1 play wave=tone millihertz=50000 level=100");
      List<String> lines = clipping.run(SECOND);
      assertTrue(lines.contains("! halted cause=clipping"), lines.toString());
      assertTrue(lines.get(0).startsWith("! clipping channel=" + channel) || lines.size() == 1);
    }
  }

  @Test
  void clippingHaltsWithinSevenTenthsOfASecond() {
    Terminal clipping = clipping(10, 0);
    clipping.send("1 play wave=dc dc=0");
    assertFalse(clipping.run(SECOND * 4 / 10).contains("! halted cause=clipping"));
    assertTrue(clipping.run(SECOND * 3 / 10).contains("! halted cause=clipping"));
  }

  @Test
  void clippingOfFewerFramesIsToldOnceASecondAndDoesNotHalt() {
    Terminal clipping = clipping(4, 1);
    clipping.send("1 play wave=dc dc=0");
    List<String> lines = clipping.run(SECOND * 18 / 10);
    assertEquals(2, lines.stream().filter(line -> line.startsWith("! clipping ")).count());
    assertEquals("! clipping channel=1 frames=1", lines.get(1));
    assertFalse(lines.contains("! halted cause=clipping"));
  }

  @Test
  void clippingWithNothingRunningIsNeitherToldNorCounted() {
    Terminal clipping = clipping(10, 0);
    assertEquals(List.of(), clipping.run(3 * SECOND));
    assertTrue(clipping.ask("1 status").get(0).contains(" clipped=0 "));
  }

  @Test
  void clippingBeforeAStartDoesNotHaltWhatStartsThen() {
    CountingWorld quietLater = new CountingWorld((tick, channel) -> tick < SECOND ? 0 : 512);
    Terminal later = new Terminal(new VirtualJig(quietLater, JigSetup.standard()));
    later.run(SECOND);
    later.send("1 play wave=dc dc=0");
    assertEquals(1, later.run(SECOND).size());
  }

  @Test
  void haltSignGoesWithTheNextAcceptedPlay() {
    terminal.run(50);
    terminal.ask("1 lamp name=busy state=on");
    terminal.ask("2 play wave=dc dc=1");
    terminal.ask("3 measure");
    assertEquals("blink", jig.lamp("busy"));
    terminal.ask("4 status");
    assertEquals("blink", jig.lamp("busy"));
    terminal.ask("5 play wave=dc dc=1");
    assertEquals("on", jig.lamp("busy"));
  }

  @Test
  void rebootPutsTheDriveToMidScaleAtOnceAndKeepsOnlyStoredIds() {
    terminal.run(50);
    terminal.ask("1 store serial=KIT-7");
    terminal.ask("2 limit peak=100");
    terminal.ask("3 play wave=dc dc=100");
    jig.reboot(VirtualJig.StartCause.BROWN_OUT);
    jig.runTicks(1);
    assertEquals(512, world.lastDriveCode());
    assertEquals(
        List.of("! ready cause=brown-out protocol=1 firmware=0.1.0 board=virtual"),
        terminal.run(SECOND));
    assertTrue(terminal.ask("4 identify").get(0).contains(" serial=KIT-7 "));
    assertEquals(1, terminal.ask("5 play wave=dc dc=511").size());
    assertTrue(terminal.ask("6 status").get(0).contains(" halts=0"));
  }

  @Test
  void storeThatDoesNotReadBackIsRefused() {
    Terminal worn =
        new Terminal(new VirtualJig(CountingWorld.quiet(), JigSetup.standard().withFailingStore()));
    worn.run(50);
    assertEquals(List.of("1 no 41 store-failed"), worn.ask("1 store serial=A"));
    assertTrue(worn.ask("2 identify").get(0).contains(" serial=none "));
  }
}
