package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LoopbackServer;
import conewise.simulator.link.StreamServer;
import conewise.simulator.world.DemoWorld;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A jig that has no serial number is given one, over a TCP port, and keeps it. */
class GivenSerialTest {

  private static Optional<String> serial(CommandRun run) throws Exception {
    assertEquals(0, run.exitCode(), run.err());
    for (JsonNode topic : new ObjectMapper().readTree(run.out()).get("identity")) {
      if (topic.get("topic").asText().equals("jig")) {
        return Optional.of(topic.get("fields").get("serial").asText());
      }
    }
    return Optional.empty();
  }

  @Test
  void aJigKeepsTheSerialThatItWasGivenWhenItStartsAgain() throws Exception {
    VirtualJig jig = new VirtualJig(DemoWorld.HERON.load().start(), JigSetup.standard());
    try (LoopbackServer server = new LoopbackServer(0, jig, StreamServer.Pace.FREE_RUNNING)) {
      Thread serving = new Thread(() -> serve(server), "jig");
      serving.start();
      try {
        String at = "127.0.0.1:" + server.port();
        assertEquals(Optional.of("none"), serial(CommandRun.of("identify", "--tcp", at, "--json")));
        assertEquals(
            Optional.of("SHOP-1"),
            serial(CommandRun.of("identify", "--tcp", at, "--give-serial", "SHOP-1", "--json")));
        // Each new client finds the jig started again.
        assertEquals(
            Optional.of("SHOP-1"), serial(CommandRun.of("identify", "--tcp", at, "--json")));
      } finally {
        serving.interrupt();
        serving.join(5_000);
      }
    }
  }

  private static void serve(LoopbackServer server) {
    try {
      server.serve();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "none", "SHOP 1", "../x", "SEVENTEEN-LETTERS"})
  void aSerialThatNoJigTakesIsRefusedBeforeAJigIsLookedFor(String given) {
    // No jig is at that port: it is never asked.
    CommandRun run = CommandRun.of("identify", "--tcp", "127.0.0.1:1", "--give-serial=" + given);
    assertEquals(64, run.exitCode(), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
    assertTrue(run.err().contains("1 to 16 letters, digits or hyphens"), run.err());
  }

  @Test
  void aVirtualJigInThisProgramIsNotRenamed() {
    CommandRun run = CommandRun.of("identify", "--virtual", "heron", "--give-serial", "SHOP-1");
    assertEquals(64, run.exitCode(), run.err());
    assertTrue(run.err().contains("has one of its own"), run.err());
  }
}
