package conewise.protocol;

/**
 * What a host asks for.
 *
 * @param tag 0 to 9999; what the answer bears
 * @param verb the command, 1 to 16 letters a-z
 * @param fields its fields, in the order in which they are sent
 */
public record Request(int tag, String verb, Fields fields) implements Message {
  /**
   * A request.
   *
   * @throws IllegalArgumentException if tag or verb is outside its limits
   */
  public Request {
    Words.checkTag(tag);
    Words.checkWord("verb", verb);
  }

  /** The same request under another tag, 0 to 9999. */
  public Request withTag(int other) {
    return new Request(other, verb, fields);
  }

  /**
   * The request as it travels.
   *
   * @throws IllegalStateException if it would be longer than {@link LineReader#REQUEST_MAX}
   *     characters
   */
  @Override
  public String toLine() {
    String line = Message.super.toLine();
    if (line.length() > LineReader.REQUEST_MAX) {
      throw new IllegalStateException(
          "a request may be "
              + LineReader.REQUEST_MAX
              + " characters long, but this "
              + verb
              + " has "
              + line.length());
    }
    return line;
  }

  @Override
  public String toText() {
    return tag + " " + verb + fields.toWords();
  }

  /** The request as a person would type it: without tag and checksum. */
  public String toTypedText() {
    return verb + fields.toWords();
  }
}
