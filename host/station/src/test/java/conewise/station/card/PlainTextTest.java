package conewise.station.card;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class PlainTextTest {

  @Test
  void noTextCanSteerATerminal() {
    assertEquals("a?[31mb c", PlainText.tame("a\u001b[31mb\nc"));
    assertEquals("x?y", PlainText.tame("x\u202ey"));
    assertEquals("Kühler Ω", PlainText.tame("Kühler Ω"));
  }

  @Test
  void anyTextIsWrappedWithinItsWidth() {
    long seed = 20261125;
    Random random = new Random(seed);
    for (int run = 0; run < 300; run++) {
      int length = random.nextInt(120);
      StringBuilder text = new StringBuilder();
      random.ints(length, 0, 0x180).forEach(text::appendCodePoint);
      int width = 1 + random.nextInt(40);
      List<String> lines = PlainText.wrap(text.toString(), width);
      assertFalse(lines.isEmpty());
      for (String line : lines) {
        assertTrue(line.length() <= width, "seed " + seed + ", run " + run + ": " + line);
      }
    }
  }

  @Test
  void wordsAreKeptWholeWhereTheyFit() {
    assertEquals(List.of("swap the", "leads"), PlainText.wrap("swap the leads", 9));
  }
}
