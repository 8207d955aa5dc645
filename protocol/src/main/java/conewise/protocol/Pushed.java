package conewise.protocol;

/**
 * What a jig says unasked.
 *
 * @param event what happened, 1 to 16 letters a-z
 * @param fields what there is to say about it
 */
public record Pushed(String event, Fields fields) implements Message {
  /**
   * A pushed line.
   *
   * @throws IllegalArgumentException if the event is not such a word
   */
  public Pushed {
    Words.checkWord("event", event);
  }

  @Override
  public String toText() {
    return "! " + event + fields.toWords();
  }
}
