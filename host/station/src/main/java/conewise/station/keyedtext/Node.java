package conewise.station.keyedtext;

import conewise.station.files.Quoted;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A piece of a text as it stands in the file, with the line that it begins on. */
public sealed interface Node {

  /** The line, from 1. */
  int line();

  /** What it is, for people. */
  String described();

  /** Whether it is a list of nothing. */
  default boolean isEmptyList() {
    return this instanceof Sequence list && list.items().isEmpty();
  }

  /** Keys with values, in their order. */
  record Mapping(int line, Map<String, Entry> entries) implements Node {
    public Mapping {
      entries = new LinkedHashMap<>(entries);
    }

    @Override
    public String described() {
      return "a group of keys";
    }
  }

  /** A value in a mapping, and where its key stands. */
  record Entry(int keyLine, Node value) {}

  /** A list. */
  record Sequence(int line, List<Node> items) implements Node {
    public Sequence {
      items = List.copyOf(items);
    }

    @Override
    public String described() {
      return "a list of " + items.size();
    }
  }

  /**
   * A single value.
   *
   * @param text as written
   * @param kind what the file format takes it for
   */
  record Scalar(int line, String text, Kind kind) implements Node {
    /** What a single value can be. */
    public enum Kind {
      TEXT,
      NUMBER,
      OTHER
    }

    @Override
    public String described() {
      return switch (kind) {
        case TEXT -> "the text " + Quoted.of(text);
        case NUMBER -> "the number " + Quoted.of(text);
        case OTHER -> text.isEmpty() ? "nothing" : Quoted.of(text);
      };
    }
  }
}
