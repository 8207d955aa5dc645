package conewise.jig.client;

import conewise.protocol.JigReady;
import conewise.protocol.Line;
import conewise.protocol.LineReader;
import conewise.protocol.Message;
import conewise.protocol.Pushed;
import conewise.protocol.ReplyParser;
import conewise.protocol.Request;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;

/** Lines over a link: sends requests, hears messages, counts what came damaged. */
final class Conversation {

  private static final int BUFFER_BYTES = 4096;

  private final ByteLink link;
  private final JigListener listener;
  private final LineReader lines = new LineReader(LineReader.JIG_LINE_MAX);
  private final byte[] buffer = new byte[BUFFER_BYTES];
  private int taken;
  private int filled;
  private boolean established;
  private long bytesHeard;
  private long soundLines;
  private long unusableLines;

  Conversation(ByteLink link, JigListener listener) {
    this.link = link;
    this.listener = listener;
  }

  long now() {
    return link.nanoTime();
  }

  String linkName() {
    return link.description();
  }

  /** From now on a {@code ready} means that the session was lost. */
  void establish() {
    established = true;
  }

  void send(Request request) throws JigFaultException {
    send(request.toLine() + "\n");
  }

  void send(String text) throws JigFaultException {
    try {
      link.write(text.getBytes(StandardCharsets.US_ASCII));
    } catch (LinkLostException lost) {
      throw new JigFaultException(new JigFault.LinkLost(lost.getMessage()), lost);
    }
  }

  /**
   * The next whole message of a jig; pushed lines have been told to the listener already.
   *
   * @param deadlineNanos when to give up, by {@link #now()}
   * @return the message; empty when none came in time
   * @throws JigFaultException when the link or the session is lost
   */
  Optional<Message> next(long deadlineNanos) throws JigFaultException {
    while (true) {
      while (taken < filled) {
        Optional<Message> message = lines.accept(buffer[taken++]).flatMap(this::read);
        if (message.isPresent()) {
          dispatch(message.get());
          return message;
        }
      }
      if (!fill(deadlineNanos)) {
        return Optional.empty();
      }
    }
  }

  private boolean fill(long deadlineNanos) throws JigFaultException {
    long left = deadlineNanos - now();
    if (left <= 0) {
      return false;
    }
    try {
      taken = 0;
      filled = 0;
      filled = link.read(buffer, Duration.ofNanos(left));
      bytesHeard += filled;
      return true;
    } catch (LinkLostException lost) {
      throw new JigFaultException(new JigFault.LinkLost(lost.getMessage()), lost);
    }
  }

  private Optional<Message> read(Line line) {
    ReplyParser.Outcome outcome = ReplyParser.parse(line);
    if (outcome instanceof ReplyParser.Read read) {
      soundLines++;
      return Optional.of(read.message());
    }
    unusableLines++;
    return Optional.empty();
  }

  private void dispatch(Message message) throws JigFaultException {
    if (message instanceof Pushed pushed) {
      listener.heard(pushed);
      if (established && pushed.event().equals(JigReady.EVENT)) {
        String cause = pushed.fields().has("cause") ? pushed.fields().text("cause") : "unknown";
        throw new JigFaultException(new JigFault.SessionLost(cause));
      }
    }
  }

  long bytesHeard() {
    return bytesHeard;
  }

  long soundLines() {
    return soundLines;
  }

  long unusableLines() {
    return unusableLines;
  }

  void close() {
    link.close();
  }
}
