package conewise.station.rates;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.station.files.BadFileException;
import conewise.station.files.Mutations;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RatesFileTest {
  private static final Path DOCUMENT = Path.of("../../docs/file-formats.md");
  private static final int MUTATIONS = 2000;

  @TempDir Path folder;

  private static Rates read(String text) throws BadFileException {
    return RatesFile.parse("shop.yaml", text.lines().toList());
  }

  private static List<String> problems(String text) {
    return assertThrows(BadFileException.class, () -> read(text), text).problems();
  }

  private static String example() throws IOException {
    Matcher example =
        Pattern.compile("<!-- rates -->\\n```yaml\\n(.*?)```", Pattern.DOTALL)
            .matcher(Files.readString(DOCUMENT));
    assertTrue(example.find());
    return example.group(1);
  }

  @Test
  void theDocumentsExampleSaysWhatItsTextSays() throws Exception {
    Rates rates = read(example());
    assertEquals(
        Map.of(
            FaultKind.DRIVER_REVERSED, 0.005,
            FaultKind.LEAK, 0.025,
            FaultKind.RESISTANCE_ADDED, 0.003),
        rates.byKind());
    assertEquals(FaultKind.HOLE.usualRate(), rates.of(FaultKind.HOLE));
  }

  @Test
  void theDocumentsTableIsThatOfTheCode() throws Exception {
    StringBuilder table =
        new StringBuilder("| fault | counted by the | usual rate |\n|---|---|---|\n");
    for (FaultKind kind : FaultKind.rated()) {
      table
          .append("| `")
          .append(kind.id())
          .append("` | ")
          .append(kind.place().one())
          .append(" | ")
          .append(
              BigDecimal.valueOf(kind.usualRate())
                  .movePointRight(2)
                  .stripTrailingZeros()
                  .toPlainString())
          .append(" % |\n");
    }
    assertTrue(Files.readString(DOCUMENT).contains(table), "the table should be\n" + table);
  }

  @Test
  void everyMistakeIsToldWithItsLine() {
    List<String> told =
        problems(
            """
            rates: 2
            leek: 1 %
            leak: 1 in 200 boxes
            hole: often
            cone-rubs: 80 %
            coil-open: 0 %
            coil-open: 1 %
            vent-closed: [1 %]
            """);
    assertEquals(8, told.size(), told.toString());
    List<String> wanted =
        List.of(
            "line 1: rates is the number \"2\"",
            "line 2: the fault \"leek\" is not known; leak is near",
            "line 3: leak is \"1 in 200 boxes\", and it is counted by the space",
            "line 4: hole is \"often\"; write it like 1 in 200 spaces",
            "line 5: cone-rubs is \"80 %\", out of range",
            "line 6: coil-open is \"0 %\", out of range",
            "line 7: the key \"coil-open\" stands on line 6 already",
            "line 8: vent-closed is a list of 1");
    for (String each : wanted) {
      assertTrue(told.stream().anyMatch(t -> t.startsWith("shop.yaml, " + each)), each + told);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "rates: 1, 1",
    "'', 1",
    "'[1, 2]', 1",
    "'rates: \"1', 1",
    "'rates: 1\nleak: *a', 2",
    "'rates: 1\n---\nrates: 1', 2",
    "'rates: 1\nleak: 1 in 0 spaces', 2",
    "'rates: 1\nleak: 1 in 200 fishes', 2",
    "'rates: 1\nleak:', 2"
  })
  void whatIsNoRateIsToldInOneSentence(String text, int line) throws Exception {
    if (text.equals("rates: 1")) {
      assertEquals(Rates.USUAL, read(text));
      return;
    }
    List<String> told = problems(text);
    assertEquals(1, told.size(), told.toString());
    assertFalse(told.get(0).contains("\n"), told.get(0));
    int said = Integer.parseInt(told.get(0).replaceFirst("shop.yaml, line ([0-9]+): .*", "$1"));
    assertTrue(Math.abs(said - line) <= 1, told.get(0));
  }

  @Test
  void ratesThatComeToOneOrMoreAreRefusedAtTheHighest() {
    String text = "rates: 1\nhole: 45 %\nleak: 50 %\n";
    double others =
        Arrays.stream(FaultKind.values())
            .filter(kind -> kind != FaultKind.HOLE && kind != FaultKind.LEAK)
            .mapToDouble(FaultKind::usualRate)
            .sum();
    assertTrue(others > 0.05, "the case is none: " + others);
    List<String> told = problems(text);
    assertEquals(1, told.size());
    assertTrue(told.get(0).startsWith("shop.yaml, line 3: the rates of all faults"), told.get(0));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Rates(Map.of(FaultKind.HOLE, 0.45, FaultKind.LEAK, 0.5)));
  }

  @Test
  void onlyRatesOrSentencesComeOutOfAnyFile() throws Exception {
    long first = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("fuzz of rates: -Dconewise.seed=" + first);
    byte[] good = example().getBytes(StandardCharsets.UTF_8);
    int read = 0;
    for (long seed = first; seed < first + MUTATIONS; seed++) {
      Path file = Files.write(folder.resolve("r.yaml"), Mutations.of(good, new Random(seed)));
      try {
        assertTrue(Rates.sum(RatesFile.read(file).byKind()) < 1, "seed " + seed);
        read++;
      } catch (BadFileException e) {
        for (String problem : e.problems()) {
          assertFalse(problem.isBlank() || problem.contains("\n"), "seed " + seed + problem);
          assertFalse(problem.contains("fasterxml"), "seed " + seed + problem);
        }
      } catch (RuntimeException e) {
        fail("seed " + seed + " brought out " + e, e);
      }
    }
    assertTrue(read > 0, "seed " + first + ": no mutation left rates");
  }
}
