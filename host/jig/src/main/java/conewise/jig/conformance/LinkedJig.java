package conewise.jig.conformance;

import conewise.protocol.Line;
import conewise.protocol.LineReader;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import conewise.protocol.vectors.JigUnderTest;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/** A jig at the other end of a link, with a note of what went to and fro. */
final class LinkedJig implements JigUnderTest, AutoCloseable {

  /** A boot loader waits for its own host for up to two seconds before it starts the firmware. */
  private static final int READY_MILLISECONDS = 3_000;

  private static final int QUIET_MILLISECONDS = 200;

  /** An exchange is for a person: the end of it is what matters. */
  private static final int EXCHANGE_LINES = 40;

  private final ByteLink link;
  private final LineReader reader = new LineReader(LineReader.JIG_LINE_MAX);
  private final Deque<Line> lines = new ArrayDeque<>();
  private final Deque<String> exchange = new ArrayDeque<>();
  private final byte[] buffer = new byte[512];

  LinkedJig(ByteLink link) {
    this.link = link;
  }

  /**
   * Waits for the line with which a jig says that it has just started.
   *
   * @throws LinkLostException when it does not come: the jig goes on from where it was
   */
  void awaitStart() throws LinkLostException {
    Optional<Line> line = nextLine(READY_MILLISECONDS);
    while (line.isPresent() && !isReady(line.get())) {
      line = nextLine(READY_MILLISECONDS);
    }
    if (line.isEmpty()) {
      throw new LinkLostException(
          "No ready line came within "
              + READY_MILLISECONDS / 1000
              + " s of opening "
              + link.description()
              + ": each dialogue needs a jig that has just started; let the port reset the board"
              + " when it is opened.");
    }
    pause(QUIET_MILLISECONDS);
    lines.clear();
    exchange.clear();
  }

  private static boolean isReady(Line line) {
    return line instanceof Line.Sound sound && sound.text().startsWith("! ready ");
  }

  List<String> exchange() {
    return new ArrayList<>(exchange);
  }

  @Override
  public void send(byte[] bytes) {
    for (String sent : new String(bytes, StandardCharsets.ISO_8859_1).split("\n", -1)) {
      if (!sent.isEmpty()) {
        note("> " + sent);
      }
    }
    try {
      link.write(bytes);
    } catch (LinkLostException lost) {
      throw new UncheckedIOException(lost);
    }
  }

  @Override
  public Optional<Line> nextLine(int milliseconds) {
    long until = link.nanoTime() + milliseconds * 1_000_000L;
    while (lines.isEmpty()) {
      long left = until - link.nanoTime();
      if (left <= 0) {
        return Optional.empty();
      }
      listen(left);
    }
    return Optional.of(lines.remove());
  }

  @Override
  public void pause(int milliseconds) {
    long until = link.nanoTime() + milliseconds * 1_000_000L;
    for (long left = until - link.nanoTime(); left > 0; left = until - link.nanoTime()) {
      listen(left);
    }
  }

  private void listen(long nanoseconds) {
    try {
      int count = link.read(buffer, Duration.ofNanos(nanoseconds));
      for (int i = 0; i < count; i++) {
        reader.accept(buffer[i]).ifPresent(this::heard);
      }
    } catch (LinkLostException lost) {
      throw new UncheckedIOException(lost);
    }
  }

  private void heard(Line line) {
    lines.add(line);
    note(
        line instanceof Line.Sound sound
            ? "< " + sound.text()
            : "< (damaged) " + ((Line.Damaged) line).heard());
  }

  private void note(String words) {
    if (exchange.size() == EXCHANGE_LINES) {
      exchange.remove();
    }
    exchange.add(words);
  }

  @Override
  public void close() {
    link.close();
  }
}
