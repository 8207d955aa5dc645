package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class LineReaderTest {
  private static List<Line> read(LineReader reader, String bytes) {
    List<Line> lines = new ArrayList<>();
    for (byte octet : bytes.getBytes(StandardCharsets.ISO_8859_1)) {
      reader.accept(octet).ifPresent(lines::add);
    }
    return lines;
  }

  @Test
  void goesOnAfterEachKindOfDamageAndCountsIt() {
    LineReader reader = new LineReader(20);
    List<Line> lines = read(reader, "x ~0000\nok\n" + "y".repeat(21) + "\nok\n\u00ff\nok\n");
    assertEquals(
        List.of(
            new Line.Damaged(JigError.LINE_DAMAGED, "x ~0000"),
            new Line.Sound("ok", false),
            new Line.Damaged(JigError.LINE_TOO_LONG, "y".repeat(20)),
            new Line.Sound("ok", false),
            new Line.Damaged(JigError.LINE_NOT_TEXT, ""),
            new Line.Sound("ok", false)),
        lines);
    assertEquals(3, reader.damagedLines());
  }

  @Test
  void takesALineOfExactlyTheMostCharactersWithCrLf() {
    assertEquals(List.of(new Line.Sound("12345", false)), read(new LineReader(5), "12345\r\n"));
  }

  @Test
  void passesOverEmptyLines() {
    LineReader reader = new LineReader(5);
    assertEquals(List.of(), read(reader, "\n\r\n\n"));
    assertEquals(0, reader.damagedLines());
  }

  @Test
  void endlessNoiseTakesNoMoreThanALine() {
    LineReader reader = new LineReader(120);
    read(reader, "z".repeat(100_000));
    Line.Damaged damaged = (Line.Damaged) read(reader, "\n").get(0);
    assertEquals(120, damaged.heard().length());
  }

  @Test
  void forgetsAHalfLineWhenTold() {
    LineReader reader = new LineReader(120);
    read(reader, "half\u0001");
    assertTrue(reader.midLine());
    reader.dropPartialLine();
    assertFalse(reader.midLine());
    assertEquals(List.of(new Line.Sound("whole", false)), read(reader, "whole\n"));
  }

  @Test
  void takesTheChecksumOff() {
    // 906E: check value of CRC-16/X-25 in the RevEng catalogue.
    assertEquals(
        List.of(new Line.Sound("123456789", true)), read(new LineReader(20), "123456789 ~906e\n"));
  }

  @Test
  void aLineLimitBelowOneIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new LineReader(0));
  }

  @Test
  void aWholeLineMayNotHoldALineEnd() {
    assertEquals(
        JigError.LINE_NOT_TEXT, ((Line.Damaged) Line.of("a\nb", 9).orElseThrow()).reason());
  }
}
