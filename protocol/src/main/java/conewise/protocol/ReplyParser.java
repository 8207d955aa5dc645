package conewise.protocol;

import java.util.List;
import java.util.Optional;

/**
 * The host's side of the wire: from a line to the message that a jig meant, or to why it cannot be
 * used.
 */
public final class ReplyParser {
  private ReplyParser() {}

  /** What a line was. */
  public sealed interface Outcome {}

  /**
   * A message; new topics, events and fields pass, since they may be added within version 1.
   *
   * @param message a {@link Reply}, {@link Pushed} or {@link Block}
   */
  public record Read(Message message) implements Outcome {}

  /**
   * A line that must not be used.
   *
   * @param reason one sentence that says why
   */
  public record Unread(String reason) implements Outcome {}

  /** Reads a line that a {@link LineReader} gave. */
  public static Outcome parse(Line line) {
    if (line instanceof Line.Damaged damaged) {
      return new Unread(damaged.reason().cause());
    }
    Line.Sound sound = (Line.Sound) line;
    if (!sound.checked()) {
      return new Unread("The line has no checksum, so it is not a jig's.");
    }
    List<String> words = Words.split(sound.text());
    try {
      return message(words)
          .<Outcome>map(Read::new)
          .orElseGet(
              () ->
                  new Unread(
                      "The line follows no form that a jig sends: \"" + sound.text() + "\"."));
    } catch (FieldProblem problem) {
      return new Unread(problem.getMessage());
    }
  }

  private static Optional<Message> message(List<String> words) {
    return switch (words.get(0)) {
      case "!" -> named(words, 1).map(fields -> new Pushed(words.get(1), fields));
      case ":" -> block(words);
      default -> reply(words);
    };
  }

  private static Optional<Message> block(List<String> words) {
    if (words.size() != 4 || !Block.isData(words.get(3))) {
      return Optional.empty();
    }
    int record = Hex.parse(words.get(1), 2);
    int sequence = Hex.parse(words.get(2), 4);
    if (record < 1 || sequence < 0) {
      return Optional.empty();
    }
    return Optional.of(new Block(record, sequence, words.get(3)));
  }

  private static Optional<Message> reply(List<String> words) {
    if (words.size() < 2 || !Words.isTag(words.get(0))) {
      return Optional.empty();
    }
    int tag = Integer.parseInt(words.get(0));
    return switch (words.get(1)) {
      case "+" -> named(words, 2).map(fields -> new Detail(tag, words.get(2), fields));
      case "ok" -> fields(words, 2).map(fields -> new Accepted(tag, fields));
      case "no" -> refused(tag, words);
      default -> Optional.empty();
    };
  }

  private static Optional<Message> refused(int tag, List<String> words) {
    if (words.size() < 4 || !words.get(2).matches("[0-9]{2}")) {
      return Optional.empty();
    }
    Optional<JigError> error = JigError.find(Integer.parseInt(words.get(2)), words.get(3));
    return error.flatMap(known -> fields(words, 4).map(fields -> new Refused(tag, known, fields)));
  }

  /**
   * The fields after a name at {@code index}; empty if the name or a field does not follow the
   * grammar.
   */
  private static Optional<Fields> named(List<String> words, int index) {
    if (words.size() <= index || !Words.isName(words.get(index))) {
      return Optional.empty();
    }
    return fields(words, index + 1);
  }

  private static Optional<Fields> fields(List<String> words, int from) {
    List<String> rest = words.subList(from, words.size());
    return rest.stream().allMatch(Words::isField)
        ? Optional.of(Words.fields(rest))
        : Optional.empty();
  }
}
