package conewise.simulator.jig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Whatever is sent, the jig answers each line once and stays safe. */
class RequestFuzzTest {
  private static final int ROUNDS = 1500;
  private static final List<String> SEEDS =
      List.of(
          "1 identify",
          "2 load at=16 data=AQIDBAUGBwg=",
          "3 play wave=tone millihertz=34000 level=300 dc=-20",
          "4 play wave=table points=64 step=1000000 level=400 crc=0F87",
          "5 play wave=dc dc=100",
          "6 limit peak=511",
          "7 record channels=2 frames=40 skip=2 decimate=1",
          "8 record channels=3 frames=4 skip=0 decimate=4",
          "9 stop",
          "10 lamp name=busy state=blink",
          "11 buzz milliseconds=100",
          "12 store serial=A-1",
          "13 status");

  private final long seed = System.nanoTime();
  private final Random random = new Random(seed);
  private final CountingWorld world = CountingWorld.quiet();
  private final Terminal terminal = new Terminal(new VirtualJig(world, JigSetup.standard()));

  /** A request with some of its characters changed, left out, doubled or put in. */
  private String mutated() {
    StringBuilder line = new StringBuilder(SEEDS.get(random.nextInt(SEEDS.size())));
    for (int changes = random.nextInt(4); changes > 0 && line.length() > 0; changes--) {
      int at = random.nextInt(line.length());
      switch (random.nextInt(5)) {
        case 0 -> line.setCharAt(at, anyCharacter());
        case 1 -> line.deleteCharAt(at);
        case 2 -> line.insert(at, line.charAt(at));
        case 3 -> line.insert(at, anyCharacter());
        default -> line.insert(at, Integer.toString(random.nextInt()));
      }
    }
    return line.toString();
  }

  /** Any byte but a line end, mostly printable. */
  private char anyCharacter() {
    char character =
        (char) (random.nextInt(8) == 0 ? random.nextInt(256) : 32 + random.nextInt(95));
    return character == '\n' ? '=' : character;
  }

  private static boolean isTerminal(String line) {
    return line.matches("[0-9]{1,4} (ok|no)( .*)?");
  }

  @Test
  void everyMutatedLineGetsExactlyOneTerminalReplyAndARefusalLeavesMidScale() {
    System.out.println("seed " + seed);
    terminal.run(50);
    int refused = 0;
    int accepted = 0;
    for (int round = 0; round < ROUNDS; round++) {
      String line = mutated();
      if (random.nextBoolean()) {
        terminal.send(line);
      } else {
        terminal.sendRaw(line + "\n");
      }
      List<String> lines = terminal.run(1500);
      String message = "seed " + seed + ", round " + round + ", line <" + line + ">: " + lines;
      List<String> replies = lines.stream().filter(RequestFuzzTest::isTerminal).toList();
      boolean sentNothing = line.isEmpty() || line.equals("\r");
      assertTrue(replies.size() == 1 || (sentNothing && replies.isEmpty()), message);
      if (!replies.isEmpty() && replies.get(0).contains(" no ")) {
        refused++;
        assertEquals(512, world.lastDriveCode(), message);
      } else {
        accepted++;
      }
    }
    assertTrue(refused > ROUNDS / 10, "seed " + seed + ": refused " + refused);
    assertTrue(accepted > ROUNDS / 10, "seed " + seed + ": accepted " + accepted);
  }

  @Test
  void streamOfAnyBytesNeverGetsMoreRepliesThanLineEndsAndTheJigStillAnswers() {
    System.out.println("seed " + seed);
    terminal.run(50);
    for (int round = 0; round < 200; round++) {
      byte[] bytes = new byte[random.nextInt(600)];
      random.nextBytes(bytes);
      int lineEnds = 1;
      for (int i = 0; i < bytes.length; i++) {
        bytes[i] = random.nextInt(10) == 0 ? (byte) '\n' : bytes[i];
        lineEnds += bytes[i] == '\n' ? 1 : 0;
      }
      terminal.sendRaw(new String(bytes, StandardCharsets.ISO_8859_1) + "\n");
      long replies = terminal.run(3000).stream().filter(RequestFuzzTest::isTerminal).count();
      assertTrue(replies <= lineEnds, "seed " + seed + ", round " + round);
      // A full receive ring may have lost the last line end, so a host begins with an empty line.
      terminal.sendRaw("\n");
      terminal.run(100);
      List<String> last = terminal.ask("9 stop");
      assertEquals("9 ok", last.get(last.size() - 1), "seed " + seed + ", round " + round);
    }
  }
}
