package conewise.jig.workbench;

import conewise.protocol.Checksum;
import conewise.protocol.link.ByteLink;
import conewise.protocol.link.LinkLostException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.function.BiConsumer;

/**
 * The other end of a link as a test wants it, on a clock that moves only while the host waits. A
 * script is called with each request's words (checksum off) and queues answers.
 */
public final class ScriptedJig implements ByteLink {

  /** The details of a whole identity, each without tag and "+". */
  public static final List<String> IDENTITY =
      List.of(
          "jig protocol=1 firmware=1.2 board=test serial=none calibration=none",
          "clock clock_hz=16000000 tick_cycles=1024",
          "converter bits=10 codes=1024",
          "channel number=0 name=voltage unit=V offset_code=512 per_code=0.002 delay_ns=0",
          "channel number=1 name=current unit=A offset_code=500 per_code=-0.0001 delay_ns=64000",
          "drive level_max=511 volt_per_level=0.0015656 source_ohm=10",
          "wave points_max=1024 point_bits=8",
          "record channels_max=2 frames_max=900000 skip_max=900000 decimate_max=256",
          "link baud=500000 request_max=120 line_max=160 silence_ms=2000",
          "fitted foot=1 lamps=1 buzzer=1");

  // Bytes on their way are compared by nobody.
  @SuppressWarnings("ArrayRecordComponent")
  private record Due(long atNanos, byte[] bytes) {}

  private final Deque<Due> due = new ArrayDeque<>();
  private final List<String> heard = new ArrayList<>();
  private final StringBuilder partial = new StringBuilder();
  private BiConsumer<ScriptedJig, String> script;
  private long now;
  private boolean closed;

  public ScriptedJig(BiConsumer<ScriptedJig, String> script) {
    this.script = script;
  }

  /** A jig that answers identify, stop and status as one should, and the rest by the script. */
  public static ScriptedJig answering(BiConsumer<ScriptedJig, String> rest) {
    return new ScriptedJig(
        (jig, request) -> {
          String tag = request.substring(0, request.indexOf(' '));
          switch (verb(request)) {
            case "identify" -> jig.sayIdentity(tag, IDENTITY);
            case "stop" -> jig.say(tag + " ok");
            default -> rest.accept(jig, request);
          }
        });
  }

  /** The first word of a request. */
  public static String tag(String request) {
    return request.substring(0, request.indexOf(' '));
  }

  /** The second word of a request. */
  public static String verb(String request) {
    int from = request.indexOf(' ') + 1;
    int to = request.indexOf(' ', from);
    return to < 0 ? request.substring(from) : request.substring(from, to);
  }

  /** What to do from now on. */
  public void follow(BiConsumer<ScriptedJig, String> other) {
    script = other;
  }

  public void sayIdentity(String tag, List<String> details) {
    details.forEach(detail -> say(tag + " + " + detail));
    say(tag + " ok lines=" + details.size());
  }

  /** Says a line at once, checksum and line end added. */
  public void say(String text) {
    sayAfter(0, text);
  }

  /** Says a line so many milliseconds from now, or after what was said before if that is later. */
  public void sayAfter(long milliseconds, String text) {
    rawAfter(milliseconds, (Checksum.seal(text) + "\n").getBytes(StandardCharsets.US_ASCII));
  }

  /** Says a line with one character changed. */
  public void sayDamaged(String text) {
    String line = Checksum.seal(text) + "\n";
    char changed = line.charAt(1) == 'x' ? 'y' : 'x';
    rawAfter(
        0, (line.charAt(0) + "" + changed + line.substring(2)).getBytes(StandardCharsets.US_ASCII));
  }

  public void rawAfter(long milliseconds, byte[] bytes) {
    long at = now + milliseconds * 1_000_000;
    if (!due.isEmpty()) {
      at = Math.max(at, due.peekLast().atNanos());
    }
    due.add(new Due(at, bytes));
  }

  /** All whole lines that the host wrote, checksums off. */
  public List<String> heard() {
    return List.copyOf(heard);
  }

  /** How many requests of this verb the host sent. */
  public long heard(String verb) {
    return heard.stream().filter(line -> verb(line).equals(verb)).count();
  }

  public boolean isClosed() {
    return closed;
  }

  @Override
  public void write(byte[] bytes) throws LinkLostException {
    for (byte octet : bytes) {
      if (octet != '\n') {
        partial.append((char) octet);
        continue;
      }
      String line = partial.toString();
      partial.setLength(0);
      if (!line.isEmpty()) {
        String request = line.substring(0, line.lastIndexOf(" ~"));
        heard.add(request);
        script.accept(this, request);
      }
    }
  }

  @Override
  public int read(byte[] buffer, Duration timeout) throws LinkLostException {
    long end = now + timeout.toNanos();
    if (due.isEmpty() || due.peek().atNanos() > end) {
      now = end;
      return 0;
    }
    Due next = due.poll();
    now = Math.max(now, next.atNanos());
    int count = Math.min(buffer.length, next.bytes().length);
    System.arraycopy(next.bytes(), 0, buffer, 0, count);
    if (count < next.bytes().length) {
      byte[] rest = Arrays.copyOfRange(next.bytes(), count, next.bytes().length);
      due.addFirst(new Due(next.atNanos(), rest));
    }
    return count;
  }

  @Override
  public long nanoTime() {
    return now;
  }

  @Override
  public String description() {
    return "scripted jig";
  }

  @Override
  public void close() {
    closed = true;
  }
}
