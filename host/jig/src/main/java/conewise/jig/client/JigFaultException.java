package conewise.jig.client;

/** Carries a {@link JigFault} to whoever asked. Its message is the fault's sentence. */
public final class JigFaultException extends Exception {

  private static final long serialVersionUID = 1L;

  private final transient JigFault fault;

  /**
   * A fault on its way.
   *
   * @param fault what happened
   */
  public JigFaultException(JigFault fault) {
    super(fault.sentence());
    this.fault = fault;
  }

  /**
   * A fault that the system reported.
   *
   * @param fault what happened
   * @param cause what the system said
   */
  public JigFaultException(JigFault fault, Throwable cause) {
    super(fault.sentence(), cause);
    this.fault = fault;
  }

  /** What happened. */
  public JigFault fault() {
    return fault;
  }
}
