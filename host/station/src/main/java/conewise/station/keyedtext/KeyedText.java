package conewise.station.keyedtext;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import conewise.station.files.BadFileException;
import conewise.station.files.Quoted;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Turns text, YAML or JSON, into {@link Node}s. Only the plain part of YAML is taken: one document,
 * no aliases or tags, so that a small file cannot stand for a large one.
 */
public final class KeyedText {

  private static final int DEEPEST = 20;

  /**
   * What a file is to hold.
   *
   * @param what for people: "plan"
   * @param firstLine how such a file begins: "plan: 2"
   */
  public record Content(String what, String firstLine) {}

  private final Content content;
  private final JsonParser parser;
  private final Problems problems;

  private KeyedText(Content content, JsonParser parser, Problems problems) {
    this.content = content;
    this.parser = parser;
    this.problems = problems;
  }

  /**
   * Reads the text.
   *
   * @param content what it is to hold
   * @param source the file's name, by which JSON is told from YAML
   * @param lines the text, line by line
   * @param problems takes repeated keys, after which the reading goes on
   * @throws BadFileException when the text is neither YAML nor JSON
   */
  public static Node parse(Content content, String source, List<String> lines, Problems problems)
      throws BadFileException {
    boolean json = isJson(source, lines);
    if (!json) {
      refuseTabs(lines, problems);
      problems.throwIfAny();
    }
    JsonFactory factory = json ? new JsonFactory() : new YAMLFactory();
    try (JsonParser parser = factory.createParser(String.join("\n", lines))) {
      return new KeyedText(content, parser, problems).document();
    } catch (JsonProcessingException e) {
      int line = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNr());
      problems.add(line, syntax(json, e.getOriginalMessage()));
    } catch (IOException e) {
      throw new UncheckedIOException("reading text from memory cannot fail", e);
    }
    problems.throwIfAny();
    throw new IllegalStateException("a mistake of syntax was found and not told");
  }

  private static boolean isJson(String source, List<String> lines) {
    String name = source.toLowerCase(Locale.ROOT);
    boolean yaml = name.endsWith(".yaml") || name.endsWith(".yml");
    boolean braced =
        lines.stream()
            .map(String::strip)
            .filter(l -> !l.isEmpty())
            .limit(1)
            .anyMatch(l -> l.startsWith("{"));
    return name.endsWith(".json") || (braced && !yaml);
  }

  private static void refuseTabs(List<String> lines, Problems problems) {
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.substring(0, line.length() - line.stripLeading().length()).indexOf('\t') >= 0) {
        problems.add(i + 1, "the line is indented with a tab; YAML allows blanks only.");
      }
    }
  }

  private static String syntax(boolean json, String message) {
    String first = message.lines().findFirst().orElse("no reason given").strip();
    return "this is not " + (json ? "JSON" : "YAML") + ": " + Quoted.of(first) + "; mend the line.";
  }

  private Node document() throws IOException, BadFileException {
    if (parser.nextToken() == null) {
      problems.add(
          1,
          "the file holds nothing but comments; a "
              + content.what()
              + " begins with its version, "
              + content.firstLine()
              + ".");
      problems.throwIfAny();
    }
    Node root = node(0);
    if (parser.nextToken() != null) {
      problems.add(
          line(), "a second document begins here; a file holds one " + content.what() + ".");
      problems.throwIfAny();
    }
    return root;
  }

  private Node node(int depth) throws IOException, BadFileException {
    refuseReferences();
    if (depth > DEEPEST) {
      problems.add(
          line(),
          "the " + content.what() + " is nested deeper than " + DEEPEST + " levels; flatten it.");
      problems.throwIfAny();
    }
    int line = line();
    return switch (parser.currentToken()) {
      case START_OBJECT -> mapping(line, depth);
      case START_ARRAY -> sequence(line, depth);
      case VALUE_STRING -> new Node.Scalar(line, parser.getText(), Node.Scalar.Kind.TEXT);
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT ->
          new Node.Scalar(line, parser.getText(), Node.Scalar.Kind.NUMBER);
      case VALUE_NULL -> new Node.Scalar(line, "", Node.Scalar.Kind.OTHER);
      default -> new Node.Scalar(line, parser.getText(), Node.Scalar.Kind.OTHER);
    };
  }

  private Node mapping(int line, int depth) throws IOException, BadFileException {
    Map<String, Node.Entry> entries = new LinkedHashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      refuseReferences();
      String key = parser.currentName();
      int keyLine = line();
      parser.nextToken();
      Node.Entry before = entries.putIfAbsent(key, new Node.Entry(keyLine, node(depth + 1)));
      if (before != null) {
        problems.add(
            keyLine,
            "the key "
                + Quoted.of(key)
                + " stands on line "
                + before.keyLine()
                + " already; keep one of the two.");
      }
    }
    return new Node.Mapping(line, entries);
  }

  private Node sequence(int line, int depth) throws IOException, BadFileException {
    List<Node> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      items.add(node(depth + 1));
    }
    return new Node.Sequence(line, items);
  }

  private void refuseReferences() throws IOException, BadFileException {
    if (!(parser instanceof YAMLParser yaml)) {
      return;
    }
    if (yaml.isCurrentAlias() || yaml.getObjectId() != null || yaml.getTypeId() != null) {
      problems.add(
          line(), "an anchor (&), alias (*) or tag (!) stands here; write the value itself.");
      problems.throwIfAny();
    }
  }

  private int line() {
    return Math.max(1, parser.currentTokenLocation().getLineNr());
  }
}
