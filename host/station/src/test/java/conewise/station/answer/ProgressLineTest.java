package conewise.station.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class ProgressLineTest {
  private final AtomicLong nanos = new AtomicLong();
  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

  @Test
  void nothingIsShownInTheFirstSecond() {
    ProgressLine line = line(false);
    line.show(0.1, "reading");
    nanos.set(900_000_000L);
    line.show(0.2, "reading");
    assertEquals("", text());
  }

  @Test
  void awayFromATerminalALineComesEveryThreeSeconds() {
    ProgressLine line = line(false);
    for (int tenth = 0; tenth <= 100; tenth++) {
      nanos.set(tenth * 100_000_000L);
      line.show(tenth / 100.0, "sweeping");
    }
    line.close();
    assertEquals(
        " 10 %  sweeping\n 40 %  sweeping\n 70 %  sweeping\n100 %  sweeping\n",
        text().replace("\r\n", "\n"));
  }

  @Test
  void onATerminalOneLineIsWrittenOverAndWipedInTheEnd() {
    ProgressLine line = line(true);
    nanos.set(2_000_000_000L);
    line.show(0.5, "sweeping");
    line.close();
    assertTrue(text().startsWith("\r 50 %  sweeping"), text());
    assertTrue(text().endsWith(" \r"), text());
  }

  private ProgressLine line(boolean interactive) {
    PrintStream stream = new PrintStream(bytes, true, StandardCharsets.UTF_8);
    return new ProgressLine(new Screen(stream, stream, true, false, interactive), nanos::get);
  }

  private String text() {
    return bytes.toString(StandardCharsets.UTF_8);
  }
}
