package conewise.protocol.link;

import java.time.Duration;

/**
 * A byte stream to a jig, as the host holds it: a serial port, a socket, or a virtual jig in
 * memory. Used by one thread at a time.
 *
 * <p>A link brings its own clock. For a real port it is the machine's; for a virtual jig it is
 * simulated time, which moves while the host waits, so that the same code and the same time limits
 * run in tests without sleeping.
 */
public interface ByteLink extends AutoCloseable {

  /**
   * Sends all bytes. Returns within a bounded time on any link.
   *
   * @throws LinkLostException when the other end is gone or takes no more
   */
  void write(byte[] bytes) throws LinkLostException;

  /**
   * Waits for bytes, at most for the time given, by the link's clock.
   *
   * @param buffer where they go, from index 0; length at least 1
   * @param timeout the longest wait; zero asks for what is there already
   * @return how many bytes came, 1 to {@code buffer.length}; 0 when none came in time
   * @throws LinkLostException when the other end is gone
   */
  int read(byte[] buffer, Duration timeout) throws LinkLostException;

  /** The link's clock in nanoseconds from an arbitrary start; never runs backwards. */
  long nanoTime();

  /** What a person would call this link: a port's name, "virtual jig". */
  String description();

  /** Lets go of the other end. May be called more than once; never throws. */
  @Override
  void close();
}
