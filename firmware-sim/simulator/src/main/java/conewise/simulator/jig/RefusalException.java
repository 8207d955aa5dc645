package conewise.simulator.jig;

import conewise.protocol.Fields;
import conewise.protocol.JigError;

/** A request that cannot be obeyed, with what its refusal says. */
final class RefusalException extends Exception {
  private static final long serialVersionUID = 1L;

  private final JigError error;
  private final transient Fields details;

  RefusalException(JigError error, Fields details) {
    super(error.wireName());
    this.error = error;
    this.details = details;
  }

  RefusalException(JigError error) {
    this(error, Fields.NONE);
  }

  JigError error() {
    return error;
  }

  Fields details() {
    return details;
  }
}
