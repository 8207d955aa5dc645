package conewise.jig.serial;

import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Duration;

/**
 * A jig behind a socket: a virtual jig on this machine, or a port that a network server lends. Its
 * clock is the machine's. Bytes are not encrypted and nobody is asked who they are: for a machine's
 * own address or a bench network of one's own.
 */
public final class TcpLink implements ByteLink {

  /** The longest that connecting may take. */
  static final Duration CONNECT_LIMIT = Duration.ofSeconds(3);

  /** The longest that a write may take. */
  static final Duration WRITE_LIMIT = Duration.ofSeconds(2);

  private final Socket socket;
  private final InputStream in;
  private final OutputStream out;
  private final String name;
  private final BoundedCalls calls;

  private TcpLink(Socket socket, String name) throws IOException {
    this.socket = socket;
    this.name = name;
    this.in = socket.getInputStream();
    this.out = socket.getOutputStream();
    this.calls = new BoundedCalls("socket " + name);
  }

  /**
   * Connects to {@code host:port}.
   *
   * @param address e.g. {@code localhost:7071}
   * @throws IllegalArgumentException when it is not of that form
   * @throws LinkLostException when nothing listens there
   */
  public static TcpLink connect(String address) throws LinkLostException {
    int colon = address.lastIndexOf(':');
    String digits = address.substring(colon + 1);
    if (colon < 1 || !digits.matches("[0-9]{1,5}")) {
      throw new IllegalArgumentException(
          "the address is \"" + address + "\"; write host:port, e.g. localhost:7071");
    }
    return connect(address.substring(0, colon), Integer.parseInt(digits));
  }

  /**
   * Connects to a host.
   *
   * @param port 1 to 65535
   * @throws LinkLostException when nothing listens there
   */
  public static TcpLink connect(String host, int port) throws LinkLostException {
    if (port < 1 || port > 65535) {
      throw new IllegalArgumentException("the port is " + port + "; it runs from 1 to 65535");
    }
    String name = host + ":" + port;
    Socket socket = new Socket();
    try {
      socket.connect(new InetSocketAddress(host, port), (int) CONNECT_LIMIT.toMillis());
      socket.setTcpNoDelay(true);
      return new TcpLink(socket, name);
    } catch (IOException refused) {
      closeQuietly(socket);
      throw new LinkLostException(
          "Nothing answers at " + name + " (" + refused.getMessage() + "); start the jig there.",
          refused);
    }
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    boolean inTime;
    try {
      inTime = calls.run(() -> out.write(bytes), WRITE_LIMIT);
    } catch (IOException failed) {
      throw gone("takes no more bytes (" + failed.getMessage() + ")", failed);
    }
    if (!inTime) {
      closeQuietly(socket);
      throw gone("took no bytes for " + WRITE_LIMIT.toSeconds() + " s", null);
    }
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    try {
      if (timeout.isZero() && in.available() == 0) {
        return 0;
      }
      // A socket's timeout of 0 would wait for ever.
      socket.setSoTimeout((int) Math.max(1, Math.min(Integer.MAX_VALUE, timeout.toMillis())));
      int count = in.read(buffer);
      if (count < 0) {
        throw gone("has closed", null);
      }
      return count;
    } catch (SocketTimeoutException nothingCame) {
      return 0;
    } catch (LinkLostException lost) {
      throw lost;
    } catch (IOException failed) {
      throw gone("is gone (" + failed.getMessage() + ")", failed);
    }
  }

  private LinkLostException gone(String what, Throwable cause) {
    return new LinkLostException("The jig at " + name + " " + what + ".", cause);
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
    closeQuietly(socket);
    calls.end();
  }

  private static void closeQuietly(Socket socket) {
    try {
      socket.close();
    } catch (IOException ignored) {
      // Closing is letting go; there is nothing left to do about a socket that fails at it.
    }
  }
}
