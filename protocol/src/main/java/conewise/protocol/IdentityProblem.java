package conewise.protocol;

/**
 * An answer to {@code identify} that no measurement can rest on. The message is one sentence that
 * says what is wrong.
 */
public final class IdentityProblem extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  IdentityProblem(String message) {
    super(message);
  }
}
