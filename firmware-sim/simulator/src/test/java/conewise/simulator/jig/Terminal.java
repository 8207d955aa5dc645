package conewise.simulator.jig;

import conewise.protocol.Checksum;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A person at a terminal of a virtual jig: sends lines, reads lines, lets time pass. */
final class Terminal {
  private final VirtualJig jig;
  private final StringBuilder heard = new StringBuilder();

  Terminal(VirtualJig jig) {
    this.jig = jig;
  }

  void sendRaw(String characters) {
    for (byte octet : characters.getBytes(StandardCharsets.ISO_8859_1)) {
      jig.hear(octet);
    }
  }

  /** Sends a request with its checksum. */
  void send(String request) {
    sendRaw(Checksum.seal(request) + "\n");
  }

  /** Sends a request, runs until the jig is quiet or 100 ms have passed, gives the lines since. */
  List<String> ask(String request) {
    send(request);
    return run(1600);
  }

  /** Lets time pass and gives the complete lines that came, without checksums. */
  List<String> run(long ticks) {
    byte[] buffer = new byte[4096];
    for (long left = ticks; left > 0; left -= 100) {
      jig.runTicks(Math.min(100, left));
      for (int count = jig.takeSent(buffer); count > 0; count = jig.takeSent(buffer)) {
        heard.append(new String(buffer, 0, count, StandardCharsets.ISO_8859_1));
      }
    }
    return takeLines();
  }

  private List<String> takeLines() {
    List<String> lines = new ArrayList<>();
    for (int end = heard.indexOf("\n"); end >= 0; end = heard.indexOf("\n")) {
      if (end > 0) {
        lines.add(unseal(heard.substring(0, end)));
      }
      heard.delete(0, end + 1);
    }
    return lines;
  }

  private static String unseal(String line) {
    String text = line.substring(0, Math.max(0, line.length() - Checksum.SUFFIX_LENGTH));
    if (!Checksum.seal(text).equals(line)) {
      throw new AssertionError("a line without a right checksum: " + line);
    }
    return text;
  }
}
