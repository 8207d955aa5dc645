package conewise.simulator.link;

import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Locale;
import java.util.Random;

/**
 * Something on a port that is no jig and talks all the time, in simulated time. It takes whatever
 * is written and does not care.
 */
public final class BabblingLink implements ByteLink {
  private static final int BITS_PER_BYTE = 10;

  private final Kind kind;
  private final Random random;
  private final long nanosecondsPerByte;
  private byte[] line = {};
  private int said;
  private long now;
  private long nextByteAt;
  private boolean closed;

  /** What it says. */
  public enum Kind {
    /** Any bytes. */
    NOISE,
    /** Lines of text of another instrument, a thermometer. */
    TEXT,
    /** Nothing at all. */
    SILENCE
  }

  /**
   * A foreign device.
   *
   * @param baud how fast it talks, 300 to 100 000 000, ten bits a byte
   */
  public BabblingLink(Kind kind, int baud, long seed) {
    if (baud < 300 || baud > 100_000_000) {
      throw new IllegalArgumentException(
          "baud is " + baud + ", but must lie from 300 to 100000000");
    }
    this.kind = kind;
    this.random = new Random(seed);
    this.nanosecondsPerByte = 1_000_000_000L * BITS_PER_BYTE / baud;
    this.nextByteAt = nanosecondsPerByte;
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    requireOpen();
    now += nanosecondsPerByte * bytes.length;
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    requireOpen();
    long deadline = now + timeout.toNanos();
    if (kind == Kind.SILENCE || nextByteAt > deadline) {
      now = deadline;
      return 0;
    }
    now = Math.max(now, nextByteAt);
    int count = 0;
    while (count < buffer.length && nextByteAt <= now) {
      buffer[count] = next();
      count++;
      nextByteAt += nanosecondsPerByte;
    }
    return count;
  }

  private byte next() {
    if (kind == Kind.NOISE) {
      return (byte) random.nextInt(256);
    }
    if (said == line.length) {
      line =
          String.format(Locale.ROOT, "T=%.1f;H=%d%%;OK\r\n", 15 + random.nextInt(100) / 10.0, 40)
              .getBytes(StandardCharsets.US_ASCII);
      said = 0;
    }
    byte octet = line[said];
    said++;
    return octet;
  }

  private void requireOpen() throws LinkLostException {
    if (closed) {
      throw new LinkLostException("The link to the " + description() + " was closed.");
    }
  }

  @Override
  public long nanoTime() {
    return now;
  }

  @Override
  public String description() {
    return "foreign device";
  }

  @Override
  public void close() {
    closed = true;
  }
}
