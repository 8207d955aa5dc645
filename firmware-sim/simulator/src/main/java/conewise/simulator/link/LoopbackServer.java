package conewise.simulator.link;

import conewise.simulator.jig.VirtualJig;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;

/**
 * A virtual jig on a TCP port of 127.0.0.1, for programs on this machine only. One client at a
 * time; each but the first finds the jig reset, as opening a serial port resets many boards.
 */
public final class LoopbackServer implements AutoCloseable {
  private static final int LOOK_UP_MILLISECONDS = 100;
  private static final int PORT_MAX = 65_535;

  private final ServerSocket socket;
  private final VirtualJig jig;
  private final StreamServer.Pace pace;
  private boolean used;

  /**
   * Takes the port.
   *
   * @param port 1 to 65535, or 0 for any that is free
   * @throws IOException if the port is taken, with a sentence that names it
   */
  public LoopbackServer(int port, VirtualJig jig, StreamServer.Pace pace) throws IOException {
    if (port < 0 || port > PORT_MAX) {
      throw new IllegalArgumentException("port is " + port + ", but must lie from 0 to 65535");
    }
    this.jig = jig;
    this.pace = pace;
    socket = new ServerSocket();
    try {
      socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 1);
      socket.setSoTimeout(LOOK_UP_MILLISECONDS);
    } catch (IOException e) {
      socket.close();
      throw new IOException(
          "Port " + port + " of 127.0.0.1 cannot be taken (" + e.getMessage() + "); try another.",
          e);
    }
  }

  /** The port taken. */
  public int port() {
    return socket.getLocalPort();
  }

  /**
   * Serves one client after another until the thread is interrupted (its flag stays set) or the
   * server is closed.
   *
   * @throws IOException if the port fails
   */
  public void serve() throws IOException {
    while (!Thread.currentThread().isInterrupted() && !socket.isClosed()) {
      try (Socket client = socket.accept()) {
        client.setTcpNoDelay(true);
        serve(client);
      } catch (SocketTimeoutException e) {
        // Nobody came; the loop looks whether to go on.
      } catch (IOException e) {
        if (!socket.isClosed()) {
          throw e;
        }
      }
    }
  }

  private void serve(Socket client) throws IOException {
    if (used) {
      jig.reboot(VirtualJig.StartCause.RESET);
    }
    used = true;
    new StreamServer(jig, pace).serve(client.getInputStream(), client.getOutputStream());
  }

  /** Gives the port back. */
  @Override
  public void close() throws IOException {
    socket.close();
  }
}
