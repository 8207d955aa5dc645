package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** How full the link gets, and what happens when it cannot keep up. */
class LinkLoadTest {
  private static final int SECOND = 15_625;

  /** Share of 500 000 baud that a record takes once it runs, in percent. */
  private static double shareOfLink(int channels) {
    VirtualJig jig = new VirtualJig(CountingWorld.quiet(), JigSetup.standard());
    Terminal terminal = new Terminal(jig);
    terminal.run(50);
    terminal.ask("1 record channels=" + channels + " frames=900000 skip=0 decimate=1");
    // 21 x 32 x 3 x 2 ticks hold whole blocks of either kind, so nothing is cut off at the ends.
    long ticks = 21L * 32 * 3 * 2 * 4;
    long before = jig.sentBytes();
    terminal.run(ticks);
    long sent = jig.sentBytes() - before;
    return 100.0 * sent / (ticks / 15_625.0 * 50_000);
  }

  @Test
  void rawPairsTakeTheShareThatTheSpecificationStates() {
    // Specification, section 8: 7812.5 / 32 x 145 = 35 400 of 50 000 characters/s, 70.8 %.
    assertEquals(70.8, shareOfLink(2), 0.05);
  }

  @Test
  void rawTriplesTakeTheShareThatTheSpecificationStates() {
    // Specification, section 8: 5208.33 / 21 x 143 = 35 467 of 50 000 characters/s, 70.9 %.
    assertEquals(70.9, shareOfLink(3), 0.05);
  }

  @Test
  void questionsDuringARawRecordLoseNothing() {
    Terminal terminal = new Terminal(new VirtualJig(CountingWorld.quiet(), JigSetup.standard()));
    terminal.run(50);
    terminal.send("1 record channels=2 frames=15000 skip=0 decimate=1");
    int answers = 0;
    int blocks = 0;
    for (int i = 0; i < 30; i++) {
      terminal.send(i % 2 + " " + (i % 2 == 0 ? "identify" : "status"));
      List<String> lines = terminal.run(1000);
      answers += (int) lines.stream().filter(line -> line.matches("[01] ok .*")).count();
      blocks += (int) lines.stream().filter(line -> line.startsWith(": ")).count();
      if (lines.get(lines.size() - 1).startsWith("! recorded")) {
        assertTrue(lines.get(lines.size() - 1).contains(" complete=yes "), lines.toString());
      }
      assertFalse(lines.contains("! overrun record=1"));
    }
    List<String> rest = terminal.run(SECOND);
    blocks += (int) rest.stream().filter(line -> line.startsWith(": ")).count();
    assertEquals(31, answers, "30 answers and the record's own");
    assertEquals(469, blocks, "15 000 frames by 32, rounded up");
  }

  @Test
  void linkThatCarriesLessThanItStatesOverrunsAndSaysSo() {
    Terminal terminal =
        new Terminal(
            new VirtualJig(
                CountingWorld.countingTicks(), JigSetup.standard().withCarriedBaud(300_000)));
    terminal.run(200);
    terminal.send("1 record channels=2 frames=5000 skip=0 decimate=1");
    List<String> lines = terminal.run(SECOND);
    int end = lines.size();
    assertEquals("! overrun record=1", lines.get(end - 2));
    assertTrue(lines.get(end - 1).contains(" complete=no "), lines.get(end - 1));
    int blocks = (int) lines.stream().filter(line -> line.startsWith(": ")).count();
    assertTrue(
        lines.get(end - 1).contains(" frames=" + 32 * blocks + " blocks=" + blocks + " "),
        lines.get(end - 1));
    for (int i = 0; i < blocks; i++) {
      assertTrue(
          lines.get(1 + i).startsWith(String.format(java.util.Locale.ROOT, ": 01 %04X ", i)),
          "sequence numbers have no gap: " + lines.get(1 + i));
    }
    assertTrue(terminal.ask("2 status").get(0).contains(" overruns=1 "));
    assertEquals(2 + 2, terminal.ask("3 record channels=2 frames=33 skip=0 decimate=2").size());
  }

  @Test
  void recordThatTheLinkCannotCarryIsRefusedWithTheArithmetic() {
    Terminal terminal =
        new Terminal(new VirtualJig(CountingWorld.quiet(), JigSetup.standard().withBaud(115_200)));
    terminal.run(500);
    assertEquals(
        List.of("1 no 33 link-too-slow needs=35401 has=9216"),
        terminal.ask("1 record channels=2 frames=10 skip=0 decimate=1"));
    // A block of 21 sums of d frames is 126 + 17 = 143 characters:
    // 7812.5 / d / 21 x 143 = 53 199 / d, so 8 is the first power of two within 9216.
    assertTrue(
        terminal
            .ask("2 record channels=2 frames=10 skip=0 decimate=4")
            .get(0)
            .startsWith("2 no 33 "));
    assertTrue(
        terminal
            .ask("3 record channels=2 frames=10 skip=0 decimate=8")
            .get(0)
            .startsWith("3 ok record=1 "));
  }

  @Test
  void answersBeginWithinFiftyMillisecondsAlsoBehindARecord() {
    VirtualJig jig = new VirtualJig(CountingWorld.quiet(), JigSetup.standard());
    Terminal terminal = new Terminal(jig);
    terminal.run(50);
    terminal.ask("1 record channels=2 frames=100000 skip=0 decimate=1");
    for (int i = 0; i < 50; i++) {
      terminal.send("2 status");
      // 16 characters take 5 ticks to arrive; 50 ms are 781 ticks; the answer takes some 40.
      List<String> lines = terminal.run(781 + 45);
      assertTrue(lines.stream().anyMatch(line -> line.startsWith("2 ok ")), lines.toString());
      terminal.run(7L * i);
    }
  }
}
