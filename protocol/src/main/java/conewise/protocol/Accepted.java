package conewise.protocol;

/**
 * The terminal reply to a request that was obeyed.
 *
 * @param tag the tag of the request, 0 to 9999
 * @param fields what the command answers
 */
public record Accepted(int tag, Fields fields) implements Reply {
  /**
   * An acceptance.
   *
   * @throws IllegalArgumentException if the tag is outside its limits
   */
  public Accepted {
    Words.checkTag(tag);
  }

  /**
   * Whether the jig saw a checksum on the request: false when the reply says {@code checked=no}.
   */
  public boolean checked() {
    return !fields.has("checked") || !fields.text("checked").equals("no");
  }

  @Override
  public String toText() {
    return tag + " ok" + fields.toWords();
  }
}
