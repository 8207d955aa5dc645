package conewise.jig.serial;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * A jig on a serial port, a USB port that acts as one, or a pseudo-terminal. 8 data bits, no
 * parity, one stop bit, no flow control. Its clock is the machine's.
 *
 * <p>A read may take up to {@link #READ_SLICE} longer than asked: the system counts its waits in
 * tenths of a second.
 */
public final class SerialLink implements ByteLink {

  /** The rate that the jig uses unless it was built for another; exact at a 16 MHz clock. */
  public static final int DEFAULT_BAUD = 500_000;

  /** The longest single wait in the system: POSIX counts VTIME in tenths of a second. */
  static final Duration READ_SLICE = Duration.ofMillis(100);

  /** The longest that a write may take: 4 KiB at 9600 baud is 4.3 s; a request is 121 bytes. */
  static final Duration WRITE_LIMIT = Duration.ofSeconds(2);

  /** The longest that opening or closing may take; some systems wait for a buffer to drain. */
  static final Duration OPEN_LIMIT = Duration.ofSeconds(5);

  /** The pause after a read that came back at once with nothing, so that no loop runs hot. */
  private static final long IDLE_PAUSE_NANOS = TimeUnit.MILLISECONDS.toNanos(2);

  private final SerialPort port;
  private final String name;
  private final BoundedCalls calls;
  private boolean lost;

  private SerialLink(SerialPort port, String name, BoundedCalls calls) {
    this.port = port;
    this.name = name;
    this.calls = calls;
  }

  /** Opens a port at {@link #DEFAULT_BAUD}; see {@link #open(String, int)}. */
  public static SerialLink open(String name) throws LinkLostException {
    return open(name, DEFAULT_BAUD);
  }

  /**
   * Opens a port for this program alone. Many boards reset when their port is opened.
   *
   * @param name a port's name or path, {@code /dev/ttyUSB0}, {@code COM3}, or a link to one
   * @param baud bits a second, 300 to 4 000 000
   * @throws LinkLostException when there is no such port, it is in use, or it is not permitted
   */
  public static SerialLink open(String name, int baud) throws LinkLostException {
    if (baud < 300 || baud > 4_000_000) {
      throw new IllegalArgumentException(
          "the rate is " + baud + " baud; it runs from 300 to 4000000");
    }
    SerialPort port;
    try {
      port = SerialPort.getCommPort(name);
    } catch (SerialPortInvalidPortException unknown) {
      throw new LinkLostException(
          "There is no port " + name + "; list the ports and give one of them.", unknown);
    }
    return open(port, name, baud);
  }

  static SerialLink open(SerialPort port, String name, int baud) throws LinkLostException {
    BoundedCalls calls = new BoundedCalls("port " + name);
    SerialLink link = new SerialLink(port, name, calls);
    boolean[] opened = {false};
    boolean inTime =
        link.bounded(() -> opened[0] = link.configureAndOpen(baud), OPEN_LIMIT, "open");
    if (!inTime || !opened[0]) {
      calls.end();
      throw new LinkLostException(
          inTime
              ? "The port "
                  + name
                  + " did not open (system error "
                  + port.getLastErrorCode()
                  + "): it is in use by another program, not permitted to this user, or no serial"
                  + " port; close the other program or ask for access to the port."
              : "The port " + name + " did not open within " + OPEN_LIMIT.toSeconds() + " s.");
    }
    return link;
  }

  private boolean configureAndOpen(int baud) {
    port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(
        SerialPort.TIMEOUT_READ_SEMI_BLOCKING,
        (int) READ_SLICE.toMillis(),
        (int) WRITE_LIMIT.toMillis());
    return port.openPort(0);
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    requireAlive();
    int[] written = {0};
    boolean inTime =
        bounded(
            () -> {
              while (written[0] < bytes.length) {
                int count = port.writeBytes(bytes, bytes.length - written[0], written[0]);
                if (count <= 0) {
                  return;
                }
                written[0] += count;
              }
            },
            WRITE_LIMIT,
            "write");
    if (!inTime) {
      throw gone("took no bytes for " + WRITE_LIMIT.toSeconds() + " s");
    }
    if (written[0] < bytes.length) {
      throw gone("took " + written[0] + " of " + bytes.length + " bytes");
    }
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    requireAlive();
    long deadline = nanoTime() + timeout.toNanos();
    do {
      int available = port.bytesAvailable();
      if (available < 0) {
        throw gone("is no longer there");
      }
      boolean mayWait = timeout.toNanos() > 0;
      if (available > 0 || mayWait) {
        int count = readSlice(buffer, available);
        if (count > 0) {
          return count;
        }
      }
    } while (nanoTime() - deadline < 0);
    return 0;
  }

  private int readSlice(byte[] buffer, int available) throws LinkLostException {
    long before = nanoTime();
    int wanted = available > 0 ? Math.min(available, buffer.length) : 1;
    int count = port.readBytes(buffer, wanted);
    if (count < 0) {
      throw gone("is no longer there");
    }
    if (count == 0 && nanoTime() - before < IDLE_PAUSE_NANOS) {
      LockSupport.parkNanos(IDLE_PAUSE_NANOS);
    }
    return count;
  }

  private boolean bounded(BoundedCalls.SystemCall call, Duration limit, String what)
      throws LinkLostException {
    try {
      return calls.run(call, limit);
    } catch (IOException failed) {
      lost = true;
      throw new LinkLostException(
          "The port " + name + " failed to " + what + ": " + failed.getMessage() + ".", failed);
    }
  }

  private void requireAlive() throws LinkLostException {
    if (lost || !port.isOpen()) {
      throw gone("is closed");
    }
  }

  private LinkLostException gone(String what) {
    lost = true;
    return new LinkLostException(
        "The port " + name + " " + what + "; check its cable and plug it in again.");
  }

  @Override
  public long nanoTime() {
    return System.nanoTime();
  }

  @Override
  public String description() {
    return name;
  }

  @Override
  public void close() {
    lost = true;
    if (port.isOpen()) {
      try {
        calls.run(port::closePort, OPEN_LIMIT);
      } catch (IOException ignored) {
        // Closing is letting go: a port that is gone already has been let go of.
      }
    }
    calls.end();
  }
}
