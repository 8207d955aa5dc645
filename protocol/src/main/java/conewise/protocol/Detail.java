package conewise.protocol;

/**
 * One line of an answer that has several; the terminal reply follows.
 *
 * @param tag the tag of the request, 0 to 9999
 * @param topic what the line is about, 1 to 16 letters a-z
 * @param fields what it says
 */
public record Detail(int tag, String topic, Fields fields) implements Reply {
  /**
   * A detail.
   *
   * @throws IllegalArgumentException if tag or topic is outside its limits
   */
  public Detail {
    Words.checkTag(tag);
    Words.checkWord("topic", topic);
  }

  @Override
  public String toText() {
    return tag + " + " + topic + fields.toWords();
  }
}
