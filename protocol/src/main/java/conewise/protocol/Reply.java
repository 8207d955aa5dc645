package conewise.protocol;

/** What a jig sends because of a request: details, then exactly one of accepted or refused. */
public sealed interface Reply extends Message permits Detail, Accepted, Refused {
  /** The tag of the request, 0 to 9999. */
  int tag();

  /** What the reply says. */
  Fields fields();
}
