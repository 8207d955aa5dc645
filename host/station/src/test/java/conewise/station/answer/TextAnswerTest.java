package conewise.station.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class TextAnswerTest {

  @Test
  void theVerdictComesFirstByWordAndShape() {
    assertTrue(first(SampleCards.passed()).startsWith("PASS [ok]"));
    assertTrue(first(SampleCards.failed()).startsWith("FAIL [x]"));
    assertTrue(first(SampleCards.notJudged()).startsWith("NOT JUDGED [-]"));
  }

  @Test
  void everyLineFitsEightyColumns() {
    for (boolean unicode : new boolean[] {true, false}) {
      for (JobCard card :
          List.of(SampleCards.passed(), SampleCards.failed(), SampleCards.notJudged())) {
        for (String line : TextAnswer.write(card, screen(unicode, false))) {
          assertTrue(line.length() <= 80, line.length() + " columns: " + line);
        }
      }
    }
  }

  @Test
  void withoutColourThereAreNoEscapeCodes() {
    String plain = String.join("\n", TextAnswer.write(SampleCards.failed(), screen(true, false)));
    assertFalse(plain.contains("\u001b"), plain);
    String coloured = TextAnswer.write(SampleCards.failed(), screen(true, true)).get(0);
    assertTrue(coloured.contains("48;2;213;94;0m"), "vermillion D55E00 is 213, 94, 0");
  }

  @Test
  void oneActionStandsRightAfterTheVerdict() {
    List<String> lines = TextAnswer.write(SampleCards.failed(), screen(true, false));
    assertEquals("Do next: Swap the leads of one driver and measure again.", lines.get(2));
  }

  @Test
  void aCheckThatDidNotPassSaysWhyAndWhatNext() {
    String text = String.join("\n", TextAnswer.write(SampleCards.failed(), screen(true, false)));
    assertTrue(text.contains("Only one peak was found, so there is no tuning to read."), text);
    assertTrue(text.contains("Mend what makes one peak first."), text);
  }

  @Test
  void noColorAndDumbTerminalsAreRespected() {
    assertTrue(Screen.wantsColour(Map.of("TERM", "xterm")));
    assertTrue(Screen.wantsColour(Map.of("NO_COLOR", "")));
    assertFalse(Screen.wantsColour(Map.of("NO_COLOR", "1")));
    assertFalse(Screen.wantsColour(Map.of("TERM", "dumb")));
  }

  private static String first(JobCard card) {
    return TextAnswer.write(card, screen(true, false)).get(0);
  }

  private static Screen screen(boolean unicode, boolean colour) {
    PrintStream nothing =
        new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8);
    return new Screen(nothing, nothing, unicode, colour, false);
  }
}
