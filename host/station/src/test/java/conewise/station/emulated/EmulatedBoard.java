package conewise.station.emulated;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.serial.SerialLink;
import conewise.protocol.link.LinkLostException;
import conewise.simulator.analog.BoardModel;
import conewise.simulator.world.World;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A board that runs the firmware's own ELF beside a world that the simulator wrote down, its serial
 * port a pseudo-terminal.
 */
public final class EmulatedBoard implements AutoCloseable {
  private static final int START_TRIES = 200;
  private static final long START_PAUSE_MILLIS = 50;
  private static final long END_SECONDS = 10;

  private final Process process;
  private final Path port;
  private final Path report;

  /** How fast emulated time may pass. */
  public enum Pace {
    /** In step with real time, as the dialogues of the protocol need it. */
    REAL("1"),
    /**
     * Half as fast again. The host keeps a record alive each 0.8 s of real time, which is then 1.2
     * s of the 2 s of silence that the board allows.
     */
    BRISK("1.5");

    private final String times;

    Pace(String times) {
      this.times = times;
    }
  }

  private EmulatedBoard(Process process, Path port, Path report) {
    this.process = process;
    this.port = port;
    this.report = report;
  }

  /**
   * Skips a test where the tools are missing (fails it with CI=true), else builds what it needs.
   */
  public static void require() throws IOException, InterruptedException {
    Workshop.require();
  }

  /**
   * Starts a board; its port is there when this returns.
   *
   * @param folder where its files go; a board before it in the same folder must have ended
   * @param options more options of the emulator
   */
  public static EmulatedBoard start(Path folder, World world, Pace pace, String... options)
      throws IOException, InterruptedException {
    Path model = folder.resolve("board.model");
    Path port = folder.resolve("jig");
    Path report = folder.resolve("board.txt");
    Files.writeString(model, BoardModel.text(world.box(), world.jig(), world.seed()));
    List<String> words = new ArrayList<>();
    words.addAll(List.of(Workshop.emulator().toString(), "--elf", Workshop.elf().toString()));
    words.addAll(List.of("--model", model.toString(), "--port", port.toString()));
    words.addAll(List.of("--pace", pace.times));
    words.addAll(Arrays.asList(options));
    Process process =
        new ProcessBuilder(words).redirectErrorStream(true).redirectOutput(report.toFile()).start();
    EmulatedBoard board = new EmulatedBoard(process, port, report);
    for (int tries = 0; !Files.exists(port); tries++) {
      assertTrue(tries < START_TRIES && process.isAlive(), board::said);
      TimeUnit.MILLISECONDS.sleep(START_PAUSE_MILLIS);
    }
    return board;
  }

  /** The name of its port. */
  public String port() {
    return port.toString();
  }

  /** Meets the board as the application does, through the serial library. */
  public JigClient connect() throws JigFaultException {
    try {
      return JigClient.connect(SerialLink.open(port()), JigListener.NONE);
    } catch (LinkLostException lost) {
      throw new AssertionError(lost.getMessage() + " " + said(), lost);
    }
  }

  /** Restarts the board, as by its key. */
  public void reboot() {
    signal("USR2");
  }

  /** Takes the board and its port away in an instant, as a cable that is pulled. */
  public void cut() {
    process.destroyForcibly();
    assertEnded();
    try {
      Files.deleteIfExists(port);
    } catch (IOException e) {
      throw new AssertionError("the link of a board that was cut cannot be deleted", e);
    }
  }

  /** Ends the board and returns its report. */
  public String end() {
    signal("TERM");
    assertEnded();
    assertEquals(0, process.exitValue(), this::said);
    return said();
  }

  @Override
  public void close() {
    if (process.isAlive()) {
      String said = end();
      assertTrue(!said.contains("NOT TRUSTWORTHY"), said);
    }
  }

  private void signal(String name) {
    try {
      Process kill = new ProcessBuilder("kill", "-" + name, Long.toString(process.pid())).start();
      assertTrue(kill.waitFor(END_SECONDS, TimeUnit.SECONDS), "kill does not end");
      assertEquals(0, kill.exitValue(), this::said);
    } catch (IOException | InterruptedException e) {
      throw new AssertionError("no signal could be sent to the board", e);
    }
  }

  private void assertEnded() {
    try {
      assertTrue(process.waitFor(END_SECONDS, TimeUnit.SECONDS), "the board does not end");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError("interrupted while the board ends", e);
    }
  }

  private String said() {
    try {
      return "The board said: " + Files.readString(report, StandardCharsets.UTF_8);
    } catch (IOException e) {
      return "The board's report cannot be read: " + e.getMessage();
    }
  }
}
