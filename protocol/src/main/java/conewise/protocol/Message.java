package conewise.protocol;

/** Whatever travels on the wire, either way. */
public sealed interface Message permits Request, Reply, Pushed, Block {
  /** The message as a line, without checksum and line end. */
  String toText();

  /** The message as it travels: with its checksum, without the line end. */
  default String toLine() {
    return Checksum.seal(toText());
  }
}
