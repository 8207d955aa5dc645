package conewise.station.resistor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Marks and what they mean by IEC 60062 (from memory, common practice). */
class ResistorMarkTest {
  @ParameterizedTest
  @CsvSource({
    "10, 10, -1",
    "10.0 ohm, 10, -1",
    ".47, 0.47, -1",
    "3.9 Ω, 3.9, -1",
    "10R, 10, -1",
    "4R7, 4.7, -1",
    "r47, 0.47, -1",
    "4R7J, 4.7, 5",
    "100RF, 100, 1",
    "1K5G, 1500, 2",
    "4K7K, 4700, 10",
    "9R1M, 9.1, 20",
    "brown-black-black-gold, 10, 5",
    "orange white gold brown, 3.9, 1",
    "Yellow/Violet/Gold, 4.7, 20",
    "brown black black gold brown, 10, 1",
    "red-red-black-silver-green, 2.2, 0.5",
    "brown-black-black-gold-violet-red, 10, 0.1",
    "gray-red-black-silver, 82, 10"
  })
  void aMarkGivesValueAndTolerance(String mark, double ohm, double percent) {
    ResistorMark read = ResistorMark.of(mark);
    assertEquals(ohm, read.ohm(), 1e-9 * ohm);
    assertEquals(percent, read.toleranceFraction().map(f -> 100 * f).orElse(-1.0), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "ten, neither a number",
    "-10, neither a number",
    "1e3, neither a number",
    "NaN, neither a number",
    "R, neither a number",
    "0, positive",
    "black-black-black-gold, positive",
    "mauve-black-black, no colour of a digit",
    "brown-black-beige-gold, no colour of a multiplier",
    "brown-black-black-white, no colour of a tolerance",
    "red-red-red-red-red-red-red, three to six"
  })
  void aMarkThatIsNoneIsRefusedInOneSentence(String mark, String said) {
    String message =
        assertThrows(IllegalArgumentException.class, () -> ResistorMark.of(mark)).getMessage();
    assertTrue(message.contains(said), message);
    assertEquals(1, message.lines().count());
  }

  @Test
  void anyTextIsReadOrRefused() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    Random random = new Random(seed);
    String[] parts = {
      "brown", "gold", "-", " ", "4", "R", "7", "K", ".", "ohm", "Ω", "\u0000", "J"
    };
    for (int trial = 0; trial < 2000; trial++) {
      StringBuilder text = new StringBuilder();
      int length = random.nextInt(12);
      for (int i = 0; i < length; i++) {
        text.append(
            random.nextInt(5) == 0
                ? String.valueOf((char) random.nextInt(0x2200))
                : parts[random.nextInt(parts.length)]);
      }
      String where = "seed " + seed + " trial " + trial + " text " + text;
      try {
        double ohm = ResistorMark.of(text.toString()).ohm();
        assertTrue(ohm > 0 && ohm < 1e14, where);
      } catch (IllegalArgumentException refused) {
        assertFalse(refused.getMessage().isBlank(), where);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"10, 10", "4.7, 4.7", "0.47, 0.47", "100, 100", "9.999, 9.999", "1500, 1500"})
  void aValueIsWrittenWithoutIdleZeros(double ohm, String text) {
    assertEquals(text, ResistorMark.plain(ohm));
  }
}
