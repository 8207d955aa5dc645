package conewise.jig.serial;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.jig.workbench.Workbench;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.LoopbackServer;
import conewise.simulator.link.StreamServer;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The real serial library on a real pseudo-terminal (socat), with a virtual jig behind it. */
class PseudoTerminalTest {

  @TempDir private Path folder;
  private Process socat;
  private Thread serving;

  @BeforeEach
  void startJig() throws Exception {
    boolean present = Files.isExecutable(Path.of("/usr/bin/socat"));
    boolean mustRun = "true".equals(System.getenv("CI"));
    assumeTrue(present || mustRun, "socat is not installed");
    socat =
        new ProcessBuilder("/usr/bin/socat", "PTY,link=" + port() + ",raw,echo=0", "STDIO")
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    serving =
        new Thread(
            () ->
                new StreamServer(jig(), StreamServer.Pace.FREE_RUNNING)
                    .serve(socat.getInputStream(), socat.getOutputStream()));
    serving.setDaemon(true);
    serving.start();
    long end = System.nanoTime() + Duration.ofSeconds(10).toNanos();
    while (!Files.exists(Path.of(port())) && System.nanoTime() < end) {
      Thread.onSpinWait();
    }
  }

  @AfterEach
  void endJig() throws InterruptedException {
    if (socat != null) {
      socat.destroy();
      assertTrue(socat.waitFor(10, TimeUnit.SECONDS));
      serving.interrupt();
      serving.join(10_000);
    }
  }

  private String port() {
    return folder.resolve("jig").toString();
  }

  private static VirtualJig jig() {
    Workbench bench = Workbench.resistor(6.8);
    return new VirtualJig(
        new VirtualAnalog(bench.box(), bench.imperfections(), 1), JigSetup.standard());
  }

  private static void assertReads(JigClient client) {
    SweepResult result =
        assertInstanceOf(
            SweepResult.class,
            new QuickSweep(SweepSettings.standard().withoutSelfCheck())
                .run(client, SweepListener.NONE));
    Outcome<ImpedanceCurve> read = result.readCurve();
    assertTrue(read instanceof Outcome.Found<ImpedanceCurve>, read::toString);
    for (ImpedancePoint point : ((Outcome.Found<ImpedanceCurve>) read).value().points()) {
      assertEquals(6.8, point.modulusOhm(), 0.03);
    }
  }

  @Test
  void aSweepThroughARealPortReadsWhatItReadsInMemory() throws Exception {
    try (JigClient client = JigClient.connect(SerialLink.open(port()), JigListener.NONE)) {
      assertReads(client);
    }
  }

  @Test
  void aPortWhoseOtherEndGoesAwayIsALostLinkWithinItsTimeLimits() throws Exception {
    try (JigClient client = JigClient.connect(SerialLink.open(port()), JigListener.NONE)) {
      socat.destroy();
      assertTrue(socat.waitFor(10, TimeUnit.SECONDS));
      JigFaultException failed = assertThrows(JigFaultException.class, client::status);
      assertTrue(
          failed.fault() instanceof JigFault.LinkLost
              || failed.fault() instanceof JigFault.NoAnswer,
          failed.getMessage());
    }
  }

  @Test
  void aReadOfASilentPortEndsByItsTimeout() throws Exception {
    try (SerialLink link = SerialLink.open(port())) {
      byte[] buffer = new byte[4096];
      while (link.read(buffer, Duration.ofMillis(300)) > 0) {
        // what the jig says when it starts
      }
      assertEquals(0, link.read(buffer, Duration.ZERO));
      assertEquals(0, link.read(buffer, Duration.ofMillis(50)));
    }
  }

  @Test
  void aPortThatDoesNotExistIsSaidInOneSentence() {
    String absent = folder.resolve("absent").toString();
    LinkLostException failed = assertThrows(LinkLostException.class, () -> SerialLink.open(absent));
    assertTrue(failed.getMessage().contains(absent), failed.getMessage());
  }

  @Test
  void aPlainFileIsNoPort() throws IOException {
    Path file = Files.writeString(folder.resolve("file.txt"), "not a port");
    LinkLostException failed =
        assertThrows(LinkLostException.class, () -> SerialLink.open(file.toString()));
    assertTrue(failed.getMessage().contains("file.txt"), failed.getMessage());
  }

  @Test
  void aSweepThroughASocketReadsTheSame() throws Exception {
    try (LoopbackServer server = new LoopbackServer(0, jig(), StreamServer.Pace.FREE_RUNNING)) {
      Thread thread =
          new Thread(
              () -> {
                try {
                  server.serve();
                } catch (IOException closed) {
                  // the test has ended
                }
              });
      thread.setDaemon(true);
      thread.start();
      try (JigClient client =
          JigClient.connect(TcpLink.connect("127.0.0.1:" + server.port()), JigListener.NONE)) {
        assertReads(client);
      }
    }
  }

  @Test
  void aSocketThatNobodyListensOnIsSaidInOneSentence() {
    LinkLostException failed =
        assertThrows(LinkLostException.class, () -> TcpLink.connect("127.0.0.1", 1));
    assertTrue(failed.getMessage().startsWith("Nothing answers at 127.0.0.1:1"));
    assertThrows(IllegalArgumentException.class, () -> TcpLink.connect("localhost"));
  }
}
