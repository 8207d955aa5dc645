package conewise.protocol;

/**
 * The terminal reply to a request that was not obeyed and changed nothing, but halts the jig.
 *
 * @param tag the tag of the request, 0 to 9999; 0 if it could not be trusted
 * @param error why
 * @param fields {@code field given low high needs has checked}, where they apply
 */
public record Refused(int tag, JigError error, Fields fields) implements Reply {
  /**
   * A refusal.
   *
   * @throws IllegalArgumentException if the tag is outside its limits
   */
  public Refused {
    Words.checkTag(tag);
  }

  @Override
  public String toText() {
    return tag + " no " + error.number() + " " + error.wireName() + fields.toWords();
  }

  /** Sentences for a person: the cause, the fields that say where, and what to do. */
  public String toSentence() {
    String where = fields.keys().isEmpty() ? "" : " (" + fields + ")";
    return "The jig refused: " + error.cause() + where + " " + error.nextStep();
  }
}
