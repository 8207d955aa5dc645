package conewise.protocol;

/**
 * A field that is absent, of the wrong form or outside its limits. The message is one sentence with
 * the key, the value and the limit; {@link #error} and {@link #details} are what a jig answers
 * with.
 */
public final class FieldProblem extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final JigError error;
  private final transient Fields details;

  private FieldProblem(String message, JigError error, Fields details) {
    super(message);
    this.error = error;
    this.details = details;
  }

  /** The field {@code key} is needed and absent. */
  public static FieldProblem missing(String key) {
    return new FieldProblem(
        "The field " + key + " is missing.", JigError.FIELD_MISSING, Fields.of("field", key));
  }

  /** The field {@code key} is not taken here. */
  public static FieldProblem unknown(String key) {
    return new FieldProblem(
        "The field " + key + " is not taken here.",
        JigError.FIELD_UNKNOWN,
        Fields.of("field", key));
  }

  /** The field {@code key} stands twice. */
  public static FieldProblem twice(String key) {
    return new FieldProblem(
        "The field " + key + " stands twice.", JigError.FIELD_TWICE, Fields.of("field", key));
  }

  /** The value is not of the form {@code expected}. */
  public static FieldProblem malformed(String key, String given, String expected) {
    return new FieldProblem(
        "The field " + key + " must be " + expected + ", but is \"" + given + "\".",
        JigError.VALUE_MALFORMED,
        Fields.of("field", key));
  }

  /** The number is outside {@code low} to {@code high}. */
  public static FieldProblem outOfRange(String key, long given, long low, long high) {
    return new FieldProblem(
        rangeMessage(key, Long.toString(given), Long.toString(low), Long.toString(high)),
        JigError.VALUE_OUT_OF_RANGE,
        Fields.of("field", key).with("given", given).with("low", low).with("high", high));
  }

  /** The number as written is outside {@code low} to {@code high}. */
  static FieldProblem outOfRange(String key, String given, double low, double high) {
    return new FieldProblem(
        rangeMessage(key, given, Double.toString(low), Double.toString(high)),
        JigError.VALUE_OUT_OF_RANGE,
        Fields.of("field", key, "given", given));
  }

  private static String rangeMessage(String key, String given, String low, String high) {
    return "The field " + key + " is " + given + ", but must lie from " + low + " to " + high + ".";
  }

  /** The error that a jig refuses with. */
  public JigError error() {
    return error;
  }

  /**
   * The extra fields of that refusal: {@code field}, and for a number out of range {@code given low
   * high}.
   */
  public Fields details() {
    return details;
  }
}
