package conewise.protocol;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Everything that a jig may refuse for. Number, cause and next step come from {@code errors.csv},
 * the one table that also feeds the specification and the firmware; the constants only give names
 * to its rows.
 */
public enum JigError {
  /** A checksum that does not match its line. */
  LINE_DAMAGED,
  /** More characters than a line may have. */
  LINE_TOO_LONG,
  /** A byte that is not printable ASCII. */
  LINE_NOT_TEXT,
  /** Words, spaces or tag that do not follow the grammar. */
  LINE_MALFORMED,
  /** A command that does not exist. */
  VERB_UNKNOWN,
  /** A field that the command does not take. */
  FIELD_UNKNOWN,
  /** A field that the command needs. */
  FIELD_MISSING,
  /** A field given more than once. */
  FIELD_TWICE,
  /** A value of the wrong form. */
  VALUE_MALFORMED,
  /** A number beyond its limits. */
  VALUE_OUT_OF_RANGE,
  /** A wave whose peak is above the limit in force. */
  ABOVE_LIMIT,
  /** A wave or record that runs and must not be disturbed. */
  BUSY,
  /** A loaded wave that is not the one meant. */
  TABLE_DIFFERS,
  /** A record that the link cannot carry. */
  LINK_TOO_SLOW,
  /** A part that the board does not have. */
  NOT_FITTED,
  /** A value that was not kept. */
  STORE_FAILED;

  private final String wireName;
  private final int number;
  private final String cause;
  private final String nextStep;

  JigError() {
    wireName = name().toLowerCase(Locale.ROOT).replace('_', '-');
    ErrorTable.Row row = ErrorTable.row(wireName);
    number = row.number();
    cause = row.cause();
    nextStep = row.nextStep();
  }

  /** The number that stands in a refusal, 10 to 99. */
  public int number() {
    return number;
  }

  /** The name that stands in a refusal, such as {@code line-damaged}. */
  public String wireName() {
    return wireName;
  }

  /** One sentence that says what is wrong. */
  public String cause() {
    return cause;
  }

  /** One sentence that says what to do. */
  public String nextStep() {
    return nextStep;
  }

  /** The error of a number and a name that belong together; empty for any other pair. */
  public static Optional<JigError> find(int number, String wireName) {
    return Arrays.stream(values())
        .filter(error -> error.number() == number && error.wireName().equals(wireName))
        .findFirst();
  }
}
