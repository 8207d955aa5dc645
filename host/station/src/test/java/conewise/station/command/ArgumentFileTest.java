package conewise.station.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Words that belong to every command of a shop, taken in from a file by {@code @FILE}. */
class ArgumentFileTest {
  @TempDir Path folder;

  private CommandRun identify(String words, String file) throws Exception {
    Path shop = Files.writeString(folder.resolve("shop.txt"), words);
    return CommandRun.of("identify", "@" + shop.resolveSibling(file));
  }

  @Test
  void itsWordsCountAsIfTheyHadBeenTyped() throws Exception {
    CommandRun run = identify("# this shop's jig\n--virtual heron\n--json\n", "shop.txt");
    assertEquals(0, run.exitCode(), run.err());
    assertTrue(run.out().startsWith("{"), run.out());
  }

  @Test
  void whatIsWrongInItIsSaidLikeWhatIsWrongOnTheLine() throws Exception {
    CommandRun run = identify("--virtual \"no such world\"", "shop.txt");
    assertTrue(run.exitCode() != 0, run.out());
    assertTrue(run.err().contains("no such world"), run.err());
    CommandRun rule = CommandRun.of("check", "@" + rule("--check-days 9"), "--plan", "x");
    assertEquals(64, rule.exitCode(), rule.err());
  }

  private Path rule(String words) throws Exception {
    return Files.writeString(folder.resolve("rule.txt"), words);
  }

  @Test
  void aFileThatIsNotThereIsNamed() throws Exception {
    CommandRun run = identify("", "other.txt");
    assertEquals(64, run.exitCode(), run.err());
    assertEquals(1, run.err().lines().count(), run.err());
    assertTrue(run.err().contains("other.txt"), run.err());
  }
}
