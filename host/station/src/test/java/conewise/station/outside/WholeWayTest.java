package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LoopbackServer;
import conewise.simulator.link.StreamServer;
import conewise.simulator.world.DemoWorld;
import conewise.station.command.CommandRun;
import java.io.File;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;

/**
 * The same box in memory, over a socket, and over a pseudo-terminal through the serial library: the
 * same verdict, check by check.
 */
@Isolated("a second program must start before the link gives up")
class WholeWayTest {
  private static final Path SOCAT = Path.of("/usr/bin/socat");

  @TempDir Path folder;

  @Test
  void aCheckOverTcpComesToTheVerdictOfMemory() throws Exception {
    VirtualJig jig = new VirtualJig(DemoWorld.WREN.load().start(), JigSetup.standard());
    try (LoopbackServer server = new LoopbackServer(0, jig, StreamServer.Pace.FREE_RUNNING)) {
      Thread serving =
          new Thread(
              () -> {
                try {
                  server.serve();
                } catch (java.io.IOException e) {
                  throw new java.io.UncheckedIOException(e);
                }
              });
      serving.start();
      try {
        assertSameVerdict("wren", "--tcp", "127.0.0.1:" + server.port());
      } finally {
        serving.interrupt();
        serving.join(10_000);
      }
    }
  }

  @Test
  void aCheckThroughAPseudoTerminalComesToTheVerdictOfMemory() throws Exception {
    boolean present = Files.isExecutable(SOCAT);
    assertTrue(present || !"true".equals(System.getenv("CI")), "socat is missing");
    Assumptions.assumeTrue(present, "socat is missing");
    Path port = folder.resolve("jig");
    Process socat =
        new ProcessBuilder(
                SOCAT.toString(),
                "PTY,link=" + port + ",raw,echo=0",
                "EXEC:" + String.join(" ", virtualJig("wren-driver-reversed")))
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("socat.txt").toFile())
            .start();
    try {
      for (int wait = 0; wait < 200 && !Files.exists(port); wait++) {
        TimeUnit.MILLISECONDS.sleep(50);
      }
      assertSameVerdict("wren-driver-reversed", "--port", port.toString());
    } finally {
      socat.destroy();
      assertTrue(socat.waitFor(10, TimeUnit.SECONDS), "socat did not end");
    }
  }

  /** The program as another process, with this test's own class path in a file of arguments. */
  private List<String> virtualJig(String world) throws Exception {
    Path arguments = folder.resolve("arguments");
    String path = System.getProperty("java.class.path");
    Files.writeString(arguments, "-Xshare:auto\n-XX:TieredStopAtLevel=1\n-cp\n\"" + path + "\"\n");
    String java =
        System.getProperty("java.home") + File.separator + "bin" + File.separator + "java";
    return List.of(
        java,
        "@" + arguments,
        "conewise.station.Conewise",
        "virtual-jig",
        "--stdio",
        "--world",
        world);
  }

  private void assertSameVerdict(String world, String... where) throws Exception {
    JsonNode inMemory = check("memory", "--virtual", world);
    JsonNode overLink = check("link", where);
    assertEquals(inMemory.get("decision"), overLink.get("decision"));
    assertEquals(
        inMemory.get("suspects").findValues("faults"),
        overLink.get("suspects").findValues("faults"));
    assertEquals(
        inMemory.get("checks").findValuesAsText("decision"),
        overLink.get("checks").findValuesAsText("decision"));
  }

  private JsonNode check(String runs, String... where) throws Exception {
    Path plan = folder.resolve("wren.yaml");
    if (!Files.exists(plan)) {
      try (InputStream in = WholeWayTest.class.getResourceAsStream("/conewise/plans/wren.yaml")) {
        Files.copy(in, plan);
      }
    }
    List<String> words = new ArrayList<>(List.of("check", "--json", "--serial", "W-1"));
    words.addAll(List.of("--plan", plan.toString(), "--keep", folder.resolve(runs).toString()));
    words.addAll(List.of(where));
    CommandRun run = CommandRun.of(words.toArray(String[]::new));
    assertTrue(run.exitCode() <= 2, run.out() + run.err());
    return new ObjectMapper().readTree(run.out());
  }
}
