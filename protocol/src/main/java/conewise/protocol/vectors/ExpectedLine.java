package conewise.protocol.vectors;

import conewise.protocol.Line;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * A line that a jig must send. Words before the first field match in place; fields match by key in
 * any order, and fields not named may come as well, except {@code checked}. {@code *} matches any
 * word or value.
 *
 * @param pattern the line without its checksum, which must always be there and be right
 */
public record ExpectedLine(String pattern) {

  /** Why a line is not the one expected; empty if it is. */
  public Optional<String> complaint(Line line) {
    if (line instanceof Line.Damaged damaged) {
      return Optional.of(
          "a damaged line came (" + damaged.reason().wireName() + "): " + damaged.heard());
    }
    Line.Sound sound = (Line.Sound) line;
    if (!sound.checked()) {
      return Optional.of("a line without checksum came: " + sound.text());
    }
    return wordsMatch(sound.text())
        ? Optional.empty()
        : Optional.of("expected \"" + pattern + "\", but \"" + sound.text() + "\" came");
  }

  private boolean wordsMatch(String text) {
    Map<String, String> wanted = words(pattern);
    Map<String, String> given = words(text);
    if (given.containsKey("checked") && !wanted.containsKey("checked")) {
      return false;
    }
    boolean samePlaces = places(wanted) == places(given);
    return samePlaces
        && wanted.entrySet().stream()
            .allMatch(
                entry ->
                    given.containsKey(entry.getKey())
                        && (entry.getValue().equals("*")
                            || entry.getValue().equals(given.get(entry.getKey()))));
  }

  private static long places(Map<String, String> words) {
    return words.keySet().stream().filter(key -> key.startsWith("#")).count();
  }

  /** Words by key; those that are no field by "#" and their place. */
  private static Map<String, String> words(String text) {
    Map<String, String> words = new LinkedHashMap<>();
    String[] parts = text.split(" ", -1);
    for (int i = 0; i < parts.length; i++) {
      int equals = parts[i].indexOf('=');
      if (equals > 0) {
        words.put(parts[i].substring(0, equals), parts[i].substring(equals + 1));
      } else {
        words.put("#" + i, parts[i]);
      }
    }
    return words;
  }
}
