package conewise.manual;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ManualTest {
  @TempDir Path root;

  @BeforeEach
  void aSmallRepository() throws IOException {
    page("README.md", "# Box\n\n[guide](docs/guide.md#what-it-is), [folder](docs/)\n");
    page("docs/README.md", "# All\n\n## Begin\n\n- [Box](../README.md)\n- [Guide](guide.md)\n");
    page("docs/guide.md", "# Guide\n\n## What *it* is\n\n![a dot](dot.svg)\n[data](a.csv)\n");
    page("docs/dot.svg", "<svg/>");
    page("docs/a.csv", "1,2\n");
  }

  private void page(String place, String text) throws IOException {
    Path file = root.resolve(place);
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  private List<String> mistakes() throws IOException {
    return Manual.written(root, root.resolve("target/manual"));
  }

  @Test
  void thePagesOfThisRepositoryLinkToWhatIsThere() throws IOException {
    Path repository = Path.of("../..").toAbsolutePath().normalize();
    assertEquals(List.of(), Manual.written(repository, root.resolve("set")));
  }

  @Test
  void aSetHasEveryPageWithTheContentsTheFilesAndNoScript() throws IOException {
    assertEquals(List.of(), mistakes());
    Path set = root.resolve("target/manual");
    String guide = Files.readString(set.resolve("docs/guide.html"));
    assertTrue(guide.contains("<a href=\"../index.html\">Box</a>"), guide);
    assertTrue(guide.contains("<h2 id=\"what-it-is\">"), guide);
    assertTrue(guide.contains("<li><a href=\"#what-it-is\">What it is</a></li>"), guide);
    assertTrue(Files.exists(set.resolve("docs/dot.svg")));
    assertTrue(Files.exists(set.resolve("docs/a.csv")));
    String first = Files.readString(set.resolve("index.html"));
    assertTrue(first.contains("<a href=\"docs/guide.html#what-it-is\">"), first);
    assertTrue(first.contains("<a href=\"docs/index.html\">folder</a>"), first);
  }

  @Test
  void marksForTheTestsAreNotShown() throws IOException {
    page("docs/guide.md", "# Guide\n\n## What it is\n\n<!-- exit: 1 -->\n```\na <b>\n```\n");
    assertEquals(List.of(), mistakes());
    String guide = Files.readString(root.resolve("target/manual/docs/guide.html"));
    assertFalse(guide.contains("exit"), guide);
    assertTrue(guide.contains("a &lt;b&gt;"), guide);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          [x](gone.md)                  | leads nowhere
          ![x](gone.png)                | leads nowhere
          [x](../README.md#no-heading)  | names a heading that is not there
          [x](a.csv#row)                | names a heading that is not there
          [x](../../outside.md)         | leads nowhere
          ![](dot.svg)                  | has no words
          """)
  void aLinkThatLeadsNowhereIsTold(String link, String said) throws IOException {
    page("docs/guide.md", "# Guide\n\n## What it is\n\n" + link + "\n");
    List<String> mistakes = mistakes();
    assertEquals(1, mistakes.size(), mistakes.toString());
    assertTrue(mistakes.get(0).startsWith("docs/guide.md: "), mistakes.toString());
    assertTrue(mistakes.get(0).contains(said), mistakes.toString());
  }

  @Test
  void aPageThatTheContentsDoNotListIsTold() throws IOException {
    page("docs/lost.md", "# Lost\n");
    List<String> mistakes = mistakes();
    assertEquals(1, mistakes.size(), mistakes.toString());
    assertTrue(mistakes.get(0).startsWith("docs/lost.md is not in the table"), mistakes.get(0));
  }

  @Test
  void theCheckOfTheSetSeesWhatTheOtherDoesNot() throws IOException {
    assertEquals(List.of(), mistakes());
    Path set = root.resolve("target/manual");
    Files.delete(set.resolve("docs/dot.svg"));
    Path guide = set.resolve("docs/guide.html");
    Files.writeString(guide, Files.readString(guide).replace(" id=\"what-it-is\"", ""));
    String found = String.join("\n", SetCheck.mistakes(set));
    assertTrue(found.contains("docs/guide.html: dot.svg leads nowhere."), found);
    assertTrue(found.contains("docs/guide.html: #what-it-is has no such anchor, or two."), found);
  }

  /** What repository hosts make of headings; looked up by opening such pages (common practice). */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          What it is               | what-it-is
          Plan of a box (YAML)     | plan-of-a-box-yaml
          load: what a wiring is   | load-what-a-wiring-is
          Surely, perhaps, never   | surely-perhaps-never
          a -- b                   | a----b
          `play` and ready_now     | play-and-ready_now
          """)
  void anchorsAreNamedAsRepositoryHostsNameThem(String heading, String anchor) throws IOException {
    page(
        "docs/guide.md",
        "# Guide\n\n## What it is\n\n## " + heading + "\n\n[x](#" + anchor + ")\n");
    List<String> mistakes =
        mistakes().stream().filter(each -> !anchor.equals("what-it-is")).toList();
    assertEquals(List.of(), mistakes);
  }

  @Test
  void theSecondHeadingOfOneNameHasANumber() throws IOException {
    page("docs/guide.md", "# Guide\n\n## What it is\n\n## Aim\n\n## Aim\n\n[x](#aim-1)\n");
    assertEquals(List.of(), mistakes());
  }
}
