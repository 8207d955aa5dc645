package conewise.station.rates;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import conewise.station.files.BadFileException;
import conewise.station.files.Quoted;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * YAML that is nothing but keys with single values, each key once, with the lines they stand on.
 */
final class FlatText {
  /**
   * A value.
   *
   * @param line the line of its key, from 1
   * @param value as written, without quotes
   */
  record Entry(int line, String value) {}

  private final YAMLParser parser;
  private final RateProblems problems;
  private final Map<String, Entry> entries = new LinkedHashMap<>();

  private FlatText(YAMLParser parser, RateProblems problems) {
    this.parser = parser;
    this.problems = problems;
  }

  /**
   * Reads the keys; those with mistakes are noted and left out.
   *
   * @throws BadFileException when the text is no YAML
   */
  static Map<String, Entry> read(List<String> lines, RateProblems problems)
      throws BadFileException {
    try (YAMLParser parser = new YAMLFactory().createParser(String.join("\n", lines))) {
      FlatText text = new FlatText(parser, problems);
      text.document();
      return text.entries;
    } catch (JsonProcessingException e) {
      int line = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNr());
      String first = String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("").strip();
      problems.add(line, "this is not YAML: " + Quoted.of(first) + "; mend the line.");
    } catch (IOException e) {
      throw new UncheckedIOException("reading text from memory cannot fail", e);
    }
    problems.throwIfAny();
    throw new IllegalStateException("a mistake of syntax was found and not told");
  }

  private void document() throws IOException, BadFileException {
    JsonToken first = parser.nextToken();
    if (first == null) {
      return;
    }
    if (first != JsonToken.START_OBJECT) {
      problems.add(line(), "the file is no list of keys; write a fault and its rate on each line.");
      problems.throwIfAny();
    }
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      entry(parser.currentName(), line());
    }
    if (parser.nextToken() != null) {
      problems.add(line(), "a second document begins here; a file holds one set of rates.");
    }
  }

  private void entry(String key, int line) throws IOException {
    JsonToken value = parser.nextToken();
    if (parser.isCurrentAlias() || parser.getObjectId() != null || parser.getTypeId() != null) {
      problems.add(
          line, "an anchor (&), alias (*) or tag (!) stands here; write the value itself.");
      return;
    }
    if (value == JsonToken.START_OBJECT || value == JsonToken.START_ARRAY) {
      problems.add(line, Quoted.of(key) + " is a group or a list; it must be a single value.");
      parser.skipChildren();
      return;
    }
    Entry entry = new Entry(line, value == JsonToken.VALUE_NULL ? "" : parser.getText());
    Entry before = entries.putIfAbsent(key, entry);
    if (before != null) {
      problems.add(
          line,
          "the key "
              + Quoted.of(key)
              + " stands on line "
              + before.line()
              + " already; keep one of the two.");
    }
  }

  private int line() {
    return Math.max(1, parser.currentTokenLocation().getLineNr());
  }
}
