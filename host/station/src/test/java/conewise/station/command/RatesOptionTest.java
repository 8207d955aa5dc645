package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RatesOptionTest {
  @TempDir Path folder;
  private Path curve;

  @BeforeEach
  void layOutACurveOfAGoodBox() throws Exception {
    curve = folder.resolve("box.csv");
    try (InputStream in = getClass().getResourceAsStream("/conewise/station/example.csv")) {
      Files.copy(in, curve);
    }
  }

  private CommandRun judge(String rates, String... more) throws Exception {
    Path file = Files.writeString(folder.resolve("rates.yaml"), rates);
    String[] all = new String[6 + more.length];
    System.arraycopy(
        new String[] {"judge", curve.toString(), "--plan", "heron", "--rates", file.toString()},
        0,
        all,
        0,
        6);
    System.arraycopy(more, 0, all, 6, more.length);
    return CommandRun.of(all);
  }

  /** Odds are prior odds times evidence: what was nearly certain before needs proof against. */
  @Test
  void aFaultMetInNearlyEveryOtherBoxIsNotRuledOutByACurveThatRuledOutARareOne() throws Exception {
    assertEquals(0, judge("rates: 1\ncone-rubs: 1 in 5000 drivers\n").exitCode());
    assertEquals(2, judge("rates: 1\ncone-rubs: 1 in 2 drivers\n").exitCode());
  }

  @Test
  void theCardNamesTheRatesThatWereUsed() throws Exception {
    Path page = folder.resolve("card.html");
    assertEquals(0, judge("rates: 1\nleak: 0.5 %\n", "--report", page.toString()).exitCode());
    assertTrue(Files.readString(page).contains("leak 0.005"), Files.readString(page));
  }

  @Test
  void mistakesInTheRatesAreBadDataAndToldWithTheirLine() throws Exception {
    CommandRun run = judge("rates: 1\nleak: much\n");
    assertEquals(65, run.exitCode());
    assertTrue(run.err().contains("rates.yaml, line 2: leak is \"much\""), run.err());
    for (String command : new String[] {"check --virtual heron --plan heron --serial 1", "study"}) {
      String line = command + " --rates " + folder.resolve("rates.yaml");
      assertEquals(65, CommandRun.of(line.split(" ")).exitCode(), command);
    }
  }
}
