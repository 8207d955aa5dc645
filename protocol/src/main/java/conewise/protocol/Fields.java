package conewise.protocol;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * The {@code key=value} words of a message, in order, no key twice. Immutable.
 *
 * <p>The typed accessors throw a {@link FieldProblem} that names the key, the value and the limit;
 * none returns a stand-in for a value that is absent or wrong. Numbers are whole and decimal, at
 * most ten digits, with a leading minus where negative; {@link #decimal} alone takes a fraction and
 * an exponent.
 */
public final class Fields {
  /** No fields. */
  public static final Fields NONE = new Fields(new LinkedHashMap<>());

  /** The most characters of a value. */
  public static final int VALUE_MAX = 96;

  private static final Pattern KEY = Pattern.compile("[a-z][a-z0-9_]{0,15}");
  private static final Pattern VALUE = Pattern.compile("[!-<>-}]+={0,2}");
  private static final Pattern WHOLE = Pattern.compile("-?[0-9]{1,10}");
  private static final Pattern DECIMAL =
      Pattern.compile("-?[0-9]{1,17}(\\.[0-9]{1,20})?(e-?[0-9]{1,3})?");

  private final Map<String, String> values;

  private Fields(Map<String, String> values) {
    this.values = Collections.unmodifiableMap(values);
  }

  /**
   * Fields from keys and values in turn.
   *
   * @throws IllegalArgumentException for an odd count, or what {@link #with} refuses
   */
  public static Fields of(String... keysAndValues) {
    if (keysAndValues.length % 2 != 0) {
      throw new IllegalArgumentException(
          "keys and values must alternate, but there are " + keysAndValues.length);
    }
    Fields fields = NONE;
    for (int i = 0; i < keysAndValues.length; i += 2) {
      fields = fields.with(keysAndValues[i], keysAndValues[i + 1]);
    }
    return fields;
  }

  /**
   * These fields and one more at the end.
   *
   * @throws IllegalArgumentException if the key or value does not follow the grammar, or the key is
   *     there already
   */
  public Fields with(String key, String value) {
    if (!isKey(key)) {
      throw new IllegalArgumentException(
          "a key is 1 to 16 of a-z 0-9 _ and begins with a letter, not \"" + key + "\"");
    }
    if (!isValue(value)) {
      throw new IllegalArgumentException(
          "the value of "
              + key
              + " must be 1 to "
              + VALUE_MAX
              + " printable characters without space, = or ~, not \""
              + value
              + "\"");
    }
    if (has(key)) {
      throw new IllegalArgumentException("the field " + key + " stands twice");
    }
    Map<String, String> more = new LinkedHashMap<>(values);
    more.put(key, value);
    return new Fields(more);
  }

  /** These fields and one more whole number at the end. */
  public Fields with(String key, long value) {
    return with(key, Long.toString(value));
  }

  static boolean isKey(String key) {
    return KEY.matcher(key).matches();
  }

  static boolean isValue(String value) {
    return value.length() <= VALUE_MAX && VALUE.matcher(value).matches();
  }

  /** The keys, in order. */
  public Set<String> keys() {
    return values.keySet();
  }

  /** Whether a field of this key is there. */
  public boolean has(String key) {
    return values.containsKey(key);
  }

  /**
   * The value as it stands.
   *
   * @throws FieldProblem if the field is absent
   */
  public String text(String key) {
    String value = values.get(key);
    if (value == null) {
      throw FieldProblem.missing(key);
    }
    return value;
  }

  /**
   * A whole number from {@code low} to {@code high}, both included.
   *
   * @throws FieldProblem if it is absent, not a whole number, or outside
   */
  public int integer(String key, int low, int high) {
    return (int) whole(key, low, high);
  }

  /**
   * A whole number from {@code low} to {@code high}, both included.
   *
   * @throws FieldProblem if it is absent, not a whole number of at most ten digits, or outside
   */
  public long whole(String key, long low, long high) {
    return checkRange(key, parseWhole(key, text(key), text(key)), low, high);
  }

  private static long checkRange(String key, long value, long low, long high) {
    if (value < low || value > high) {
      throw FieldProblem.outOfRange(key, value, low, high);
    }
    return value;
  }

  private static long parseWhole(String key, String number, String given) {
    if (!WHOLE.matcher(number).matches()) {
      throw FieldProblem.malformed(key, given, "a whole number of at most ten digits");
    }
    return Long.parseLong(number);
  }

  /**
   * A number that may have a fraction and an exponent, from {@code low} to {@code high}, both
   * included.
   *
   * @throws FieldProblem if it is absent, not such a number, or outside
   */
  public double decimal(String key, double low, double high) {
    String text = text(key);
    if (!DECIMAL.matcher(text).matches()) {
      throw FieldProblem.malformed(key, text, "a number such as 4, -0.5 or 1.25e-3");
    }
    double value = Double.parseDouble(text);
    if (!(value >= low && value <= high)) {
      throw FieldProblem.outOfRange(key, text, low, high);
    }
    return value;
  }

  /**
   * One of some words.
   *
   * @throws FieldProblem if it is absent or another
   */
  public String word(String key, String... among) {
    String value = text(key);
    if (!List.of(among).contains(value)) {
      throw FieldProblem.malformed(key, value, "one of " + String.join(", ", among));
    }
    return value;
  }

  /**
   * Whole numbers between commas, each from {@code low} to {@code high}, both included.
   *
   * @throws FieldProblem if the field is absent, or an element is not a whole number or is outside
   */
  public List<Integer> integers(String key, int low, int high) {
    String given = text(key);
    List<Integer> numbers = new ArrayList<>();
    for (String part : given.split(",", -1)) {
      numbers.add((int) checkRange(key, parseWhole(key, part, given), low, high));
    }
    return List.copyOf(numbers);
  }

  /** Each field after a space: what follows the verb on a line. */
  String toWords() {
    StringBuilder words = new StringBuilder();
    values.forEach((key, value) -> words.append(' ').append(key).append('=').append(value));
    return words.toString();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Fields that && values.equals(that.values);
  }

  @Override
  public int hashCode() {
    return values.hashCode();
  }

  @Override
  public String toString() {
    return toWords().strip();
  }
}
