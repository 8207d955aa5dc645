package conewise.station.desk;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** What of a question has to be mended: one sentence for each field. For one thread. */
final class Problems {
  private final Map<String, String> sentences = new LinkedHashMap<>();

  boolean any() {
    return !sentences.isEmpty();
  }

  Optional<String> of(String field) {
    return Optional.ofNullable(sentences.get(field));
  }

  void add(String field, String sentence) {
    sentences.putIfAbsent(field, sentence);
  }

  /** A refusal that begins small and has no full stop, as a sentence. */
  static String sentence(IllegalArgumentException refused) {
    String words = refused.getMessage();
    return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
  }

  /**
   * Reads a field; what its reader refuses is a problem of that field.
   *
   * @param field its name
   * @param label its name for people, which begins the sentence
   */
  <T> Optional<T> read(Asked asked, String field, String label, Function<String, T> reader) {
    Optional<String> text = asked.one(field);
    try {
      return text.map(reader);
    } catch (IllegalArgumentException bad) {
      add(field, label + " " + bad.getMessage());
      return Optional.empty();
    }
  }
}
