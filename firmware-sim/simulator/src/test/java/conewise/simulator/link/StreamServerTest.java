package conewise.simulator.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class StreamServerTest {
  private static VirtualJig jig() {
    return new VirtualJig(
        new VirtualAnalog(Box.load(Wiring.ohm(4)), JigImperfections.ideal(), 1),
        JigSetup.standard());
  }

  private static List<String> linesFor(String typed, StreamServer.Pace pace) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    InputStream in = new ByteArrayInputStream(typed.getBytes(StandardCharsets.US_ASCII));
    assertEquals(StreamServer.End.INPUT_ENDED, new StreamServer(jig(), pace).serve(in, out));
    return out.toString(StandardCharsets.US_ASCII).lines().filter(line -> !line.isEmpty()).toList();
  }

  @Test
  void whatWasTypedIsAnsweredAfterTheInputHasEnded() {
    for (StreamServer.Pace pace : StreamServer.Pace.values()) {
      List<String> lines = linesFor("identify\n", pace);
      assertTrue(lines.get(0).startsWith("! ready cause=power "), lines.toString());
      assertTrue(lines.get(lines.size() - 1).startsWith("0 ok lines=11 checked=no ~"));
      assertEquals(13, lines.size());
    }
  }

  @Test
  void recordOfManySecondsEndsCompleteFreeRunning() throws Exception {
    // The host waits without a word: ahead of the wall's clock that is not yet silence.
    try (PipedInputStream in = new PipedInputStream();
        PipedInputStream fromJig = new PipedInputStream(1 << 16);
        PipedOutputStream out = new PipedOutputStream(fromJig)) {
      CompletableFuture<StreamServer.End> end;
      try (PipedOutputStream toJig = new PipedOutputStream(in)) {
        end = serving(in, out);
        toJig.write(
            "1 record channels=2 frames=40000 skip=0 decimate=1\n"
                .getBytes(StandardCharsets.US_ASCII));
        toJig.flush();
        assertRecordOf40000Frames(fromJig);
      }
      assertEquals(StreamServer.End.INPUT_ENDED, end.get(10, TimeUnit.SECONDS));
    }
  }

  private static void assertRecordOf40000Frames(InputStream fromJig) throws IOException {
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(fromJig, StandardCharsets.US_ASCII));
    String line = firstLine(reader);
    int blocks = 0;
    while (!line.startsWith("! recorded")) {
      blocks += line.startsWith(": ") ? 1 : 0;
      line = reader.readLine();
    }
    assertEquals(1250, blocks, line);
    assertTrue(line.contains(" complete=yes "), line);
  }

  /** The first line that is not the empty one of a start. */
  private static String firstLine(BufferedReader reader) throws IOException {
    String line = reader.readLine();
    return line.isEmpty() ? reader.readLine() : line;
  }

  private static CompletableFuture<StreamServer.End> serving(InputStream in, OutputStream out) {
    StreamServer server = new StreamServer(jig(), StreamServer.Pace.FREE_RUNNING);
    return CompletableFuture.supplyAsync(() -> server.serve(in, out));
  }

  @Test
  void interruptEndsServingAndTheFlagStays() throws Exception {
    try (PipedOutputStream toJig = new PipedOutputStream();
        PipedInputStream in = new PipedInputStream(toJig)) {
      AtomicReference<StreamServer.End> end = new AtomicReference<>();
      AtomicReference<Boolean> flag = new AtomicReference<>();
      Thread thread =
          new Thread(
              () -> {
                StreamServer server = new StreamServer(jig(), StreamServer.Pace.REAL_TIME);
                end.set(server.serve(in, new ByteArrayOutputStream()));
                flag.set(Thread.currentThread().isInterrupted());
              });
      thread.start();
      thread.interrupt();
      thread.join(10_000);
      assertFalse(thread.isAlive());
      assertEquals(StreamServer.End.INTERRUPTED, end.get());
      assertTrue(flag.get());
    }
  }

  @Test
  void brokenOutputEndsServing() throws IOException {
    try (PipedOutputStream toJig = new PipedOutputStream();
        PipedInputStream in = new PipedInputStream(toJig)) {
      OutputStream broken =
          new OutputStream() {
            @Override
            public void write(int octet) throws IOException {
              throw new IOException("gone");
            }
          };
      assertEquals(
          StreamServer.End.OTHER_SIDE_GONE,
          new StreamServer(jig(), StreamServer.Pace.FREE_RUNNING).serve(in, broken));
    }
  }

  @Test
  void realTimeFollowsTheClockGiven() {
    VirtualJig jig = jig();
    long[] clock = {0};
    // Each look at the clock is 10 ms later; input of 40 chunks keeps the server looking.
    InputStream in =
        new InputStream() {
          private int left = 40;

          @Override
          public int read() {
            throw new UnsupportedOperationException("read by chunks");
          }

          @Override
          public int read(byte[] buffer, int offset, int length) {
            if (left == 0) {
              return -1;
            }
            left--;
            buffer[offset] = '\n';
            return 1;
          }
        };
    StreamServer server =
        new StreamServer(
            jig,
            StreamServer.Pace.REAL_TIME,
            () -> {
              clock[0] += 10_000_000;
              return clock[0];
            });
    server.serve(in, new ByteArrayOutputStream());
    long ticksByClock = (clock[0] - 10_000_000) / 64_000;
    assertTrue(
        Math.abs(jig.elapsedTicks() - ticksByClock) <= 1 + 256,
        jig.elapsedTicks() + " ticks, by the clock " + ticksByClock);
  }

  @Test
  void loopbackPortServesOneClientAfterAnotherWithAResetBetween() throws Exception {
    CompletableFuture<Void> serving;
    try (LoopbackServer server = new LoopbackServer(0, jig(), StreamServer.Pace.FREE_RUNNING)) {
      serving = CompletableFuture.runAsync(() -> serve(server));
      assertEquals("power", bannerCause(server.port()));
      assertEquals("reset", bannerCause(server.port()));
    }
    serving.get(10, TimeUnit.SECONDS);
  }

  private static void serve(LoopbackServer server) {
    try {
      server.serve();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String bannerCause(int port) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.setSoTimeout(10_000);
      BufferedReader reader =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.US_ASCII));
      String banner = firstLine(reader);
      socket.getOutputStream().write("7 stop\n".getBytes(StandardCharsets.US_ASCII));
      assertTrue(reader.readLine().startsWith("7 ok checked=no ~"));
      return banner.replaceAll(".*cause=([a-z]+) .*", "$1");
    }
  }

  @Test
  void portThatIsTakenOrImpossibleIsNamed() throws IOException {
    try (LoopbackServer server = new LoopbackServer(0, jig(), StreamServer.Pace.REAL_TIME)) {
      IOException taken =
          assertThrows(
              IOException.class,
              () -> new LoopbackServer(server.port(), jig(), StreamServer.Pace.REAL_TIME));
      assertTrue(taken.getMessage().contains("Port " + server.port()), taken.getMessage());
    }
    assertThrows(
        IllegalArgumentException.class,
        () -> new LoopbackServer(70_000, jig(), StreamServer.Pace.REAL_TIME));
  }
}
