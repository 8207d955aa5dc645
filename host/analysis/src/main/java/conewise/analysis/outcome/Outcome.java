package conewise.analysis.outcome;

import java.util.Objects;
import java.util.function.Function;

/**
 * The outcome of anything that may fail to give a value: either {@link Found} or {@link NoResult}
 * with the reason. A missing, saturated, unconverged or out-of-range quantity is a {@code
 * NoResult}; it is never NaN, null or a default, so it can never be taken for a pass.
 *
 * @param <T> the value's type
 */
public sealed interface Outcome<T> {

  /**
   * A value that was obtained.
   *
   * @param value what was obtained; not null
   * @param <T> of what kind it is
   */
  record Found<T>(T value) implements Outcome<T> {
    public Found {
      Objects.requireNonNull(value, "a found value is never null; use NoResult");
    }
  }

  /**
   * No value, with one plain sentence that says why (and what to do, where something can be done).
   *
   * @param because the sentence; not blank
   * @param <T> what was looked for
   */
  record NoResult<T>(String because) implements Outcome<T> {
    public NoResult {
      if (because.isBlank()) {
        throw new IllegalArgumentException("NoResult needs a reason; it was blank");
      }
    }
  }

  /** A value that was obtained. */
  static <T> Outcome<T> found(T value) {
    return new Found<>(value);
  }

  /** No value, and the sentence that says why. */
  static <T> Outcome<T> none(String because) {
    return new NoResult<>(because);
  }

  /** Applies a function to a found value; a missing one keeps its reason. */
  default <R> Outcome<R> map(Function<? super T, ? extends R> function) {
    if (this instanceof Found<T> found) {
      return new Found<>(function.apply(found.value()));
    }
    return new NoResult<>(((NoResult<T>) this).because());
  }
}
