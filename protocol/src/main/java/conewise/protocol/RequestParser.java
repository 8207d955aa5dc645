package conewise.protocol;

import java.util.List;
import java.util.Optional;

/**
 * The jig's side of the wire: from a line to a request whose grammar, verb and keys are right, or
 * to the refusal to send.
 */
public final class RequestParser {
  private RequestParser() {}

  /** What a line was. */
  public sealed interface Outcome {}

  /**
   * A request whose verb exists and whose keys that verb takes, each once.
   *
   * @param request the request; tag 0 if the line had none
   * @param checked whether the line had a checksum
   */
  public record Understood(Request request, boolean checked) implements Outcome {
    /**
     * The acceptance to send: these fields, and {@code checked=no} where the request had no
     * checksum.
     */
    public Accepted accept(Fields fields) {
      return new Accepted(request.tag(), marked(fields, checked));
    }

    /**
     * The refusal to send: these fields, and {@code checked=no} where the request had no checksum.
     */
    public Refused refuse(JigError error, Fields fields) {
      return new Refused(request.tag(), error, marked(fields, checked));
    }
  }

  /**
   * A line that a jig must refuse.
   *
   * @param reply the refusal to send
   */
  public record Wrong(Refused reply) implements Outcome {}

  /** Reads a line that a {@link LineReader} gave. */
  public static Outcome parse(Line line) {
    if (line instanceof Line.Damaged damaged) {
      return new Wrong(new Refused(0, damaged.reason(), Fields.NONE));
    }
    Line.Sound sound = (Line.Sound) line;
    List<String> words = Words.split(sound.text());
    boolean tagged = Words.isTag(words.get(0));
    int tag = tagged ? Integer.parseInt(words.get(0)) : 0;
    return parseWords(tag, tagged ? words.subList(1, words.size()) : words, sound.checked());
  }

  private static Outcome parseWords(int tag, List<String> words, boolean checked) {
    boolean wellFormed =
        !words.isEmpty()
            && Words.isName(words.get(0))
            && words.stream().skip(1).allMatch(Words::isField);
    if (!wellFormed) {
      return refuse(tag, JigError.LINE_MALFORMED, Fields.NONE, checked);
    }
    Optional<Verb> verb = Verb.find(words.get(0));
    if (verb.isEmpty()) {
      return refuse(tag, JigError.VERB_UNKNOWN, Fields.NONE, checked);
    }
    try {
      Fields fields = fields(verb.get(), words.subList(1, words.size()));
      return new Understood(new Request(tag, words.get(0), fields), checked);
    } catch (FieldProblem problem) {
      return refuse(tag, problem.error(), problem.details(), checked);
    }
  }

  /** Field by field from the left, so that the first wrong one names the refusal. */
  private static Fields fields(Verb verb, List<String> words) {
    Fields fields = Fields.NONE;
    for (String word : words) {
      int equals = word.indexOf('=');
      String key = word.substring(0, equals);
      if (!verb.keys().contains(key)) {
        throw FieldProblem.unknown(key);
      }
      if (fields.has(key)) {
        throw FieldProblem.twice(key);
      }
      fields = fields.with(key, word.substring(equals + 1));
    }
    return fields;
  }

  private static Wrong refuse(int tag, JigError error, Fields fields, boolean checked) {
    return new Wrong(new Refused(tag, error, marked(fields, checked)));
  }

  private static Fields marked(Fields fields, boolean checked) {
    return checked ? fields : fields.with("checked", "no");
  }
}
