package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The document against the table and the code. With -Dconewise.update=true the list in the document
 * is written anew.
 */
class SpecificationTest {
  private static final Path SPECIFICATION = Path.of("spec.md");
  private static final String BEGIN = "<!-- errors:begin -->\n";
  private static final String END = "<!-- errors:end -->";
  private static final String UPDATE =
      "./mvnw -q -pl protocol test -Dtest=SpecificationTest -Dconewise.update=true";

  @Test
  void listsTheErrorsOfTheTable() throws IOException {
    String document = Files.readString(SPECIFICATION);
    int begin = document.indexOf(BEGIN) + BEGIN.length();
    int end = document.indexOf(END);
    assertTrue(
        begin >= BEGIN.length() && end >= begin,
        "spec.md must hold " + BEGIN.strip() + " and " + END);
    String wanted = list();
    if (Boolean.getBoolean("conewise.update")) {
      Files.writeString(
          SPECIFICATION, document.substring(0, begin) + wanted + document.substring(end));
      return;
    }
    assertEquals(
        wanted,
        document.substring(begin, end),
        "The list of errors in spec.md differs from errors.csv; write it anew with: " + UPDATE);
  }

  private static String list() {
    return ErrorTable.rows().stream()
        .map(
            row ->
                "| "
                    + row.number()
                    + " | `"
                    + row.name()
                    + "` | "
                    + row.cause()
                    + " | "
                    + row.nextStep()
                    + " |\n")
        .collect(
            Collectors.joining(
                "", "| number | name | cause | next step |\n|---|---|---|---|\n", ""));
  }

  @Test
  void hasAConstantForEachRowAndARowForEachConstant() {
    List<String> rows = ErrorTable.rows().stream().map(ErrorTable.Row::name).toList();
    assertEquals(Arrays.stream(JigError.values()).map(JigError::wireName).toList(), rows);
    assertEquals(
        rows.size(),
        ErrorTable.rows().stream().map(ErrorTable.Row::number).distinct().count(),
        "numbers must differ");
  }

  @Test
  void describesEachVerbWithEachOfItsFields() throws IOException {
    String document = Files.readString(SPECIFICATION);
    for (Verb verb : Verb.values()) {
      int begin = document.indexOf("\n### " + verb.wireName() + "\n");
      assertTrue(begin > 0, "spec.md has no section " + verb.wireName());
      int next = document.indexOf("\n##", begin + 1);
      String section = document.substring(begin, next);
      verb.keys()
          .forEach(
              key ->
                  assertTrue(section.contains(key), verb.wireName() + " does not mention " + key));
    }
  }

  /** The session of section 2: each line of either side must be read, whatever its values. */
  @Test
  void showsASessionThatTheCodecReads() throws IOException {
    String document = Files.readString(SPECIFICATION);
    int begin = document.indexOf("```", document.indexOf("## 2 ")) + 4;
    List<String> session =
        document.substring(begin, document.indexOf("```", begin)).lines().toList();
    CommandParser commands = new CommandParser(ReferenceJig.identity());
    for (String line : session) {
      if (line.contains("...  ~....") || line.endsWith("+ ...")) {
        continue; // Shortened in the document.
      }
      String text = line.substring(2).replace(" ~....", "");
      if (line.startsWith("> ")) {
        Line typed = Line.of(text, LineReader.REQUEST_MAX).orElseThrow();
        commands.parse(((RequestParser.Understood) RequestParser.parse(typed)).request());
      } else {
        Line sent = Line.of(Checksum.seal(text), LineReader.JIG_LINE_MAX).orElseThrow();
        assertTrue(ReplyParser.parse(sent) instanceof ReplyParser.Read, line);
      }
    }
    assertTrue(
        Stream.of("9345849", "tick=81250").allMatch(s -> String.join("\n", session).contains(s)));
  }
}
