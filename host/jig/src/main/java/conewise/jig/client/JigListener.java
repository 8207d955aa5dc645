package conewise.jig.client;

import conewise.protocol.Pushed;

/** Hears what a jig says unasked. Called on the thread that uses the client, between lines. */
@FunctionalInterface
public interface JigListener {

  /** One that does not listen. */
  JigListener NONE = pushed -> {};

  /**
   * A pushed line: {@code foot}, {@code clipping}, {@code halted}, {@code overrun}, {@code
   * recorded}, {@code ready}, or one that this version does not know.
   */
  void heard(Pushed pushed);
}
