package conewise.simulator.link;

import conewise.protocol.Line;
import conewise.protocol.LineReader;
import conewise.protocol.Message;
import conewise.protocol.ReplyParser;
import conewise.protocol.Request;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/** A small host for tests: sends requests, collects messages, counts what was damaged. */
final class Host {
  private final ByteLink link;
  private final LineReader reader = new LineReader(LineReader.JIG_LINE_MAX);
  private int damaged;

  Host(ByteLink link) {
    this.link = link;
  }

  List<Message> ask(Request request) throws LinkLostException {
    return ask(request, Duration.ofMillis(100));
  }

  /** Sends and listens for so long. */
  List<Message> ask(Request request, Duration time) throws LinkLostException {
    link.write((request.toLine() + "\n").getBytes(StandardCharsets.US_ASCII));
    return listen(time);
  }

  /** All messages that come within the time. */
  List<Message> listen(Duration time) throws LinkLostException {
    List<Message> messages = new ArrayList<>();
    byte[] buffer = new byte[512];
    long end = link.nanoTime() + time.toNanos();
    for (long left = time.toNanos(); left > 0; left = end - link.nanoTime()) {
      int count = link.read(buffer, Duration.ofNanos(left));
      for (int i = 0; i < count; i++) {
        reader.accept(buffer[i]).ifPresent(line -> take(line, messages));
      }
    }
    return messages;
  }

  private void take(Line line, List<Message> messages) {
    if (ReplyParser.parse(line) instanceof ReplyParser.Read read) {
      messages.add(read.message());
    } else {
      damaged++;
    }
  }

  int damaged() {
    return damaged;
  }
}
