package conewise.protocol;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FieldsTest {
  private final Fields fields =
      Fields.of("n", "-5", "list", "1,2,3", "word", "tone", "x", "1.25e-3", "big", "9999999999");

  private static void fails(JigError error, String message, Executable reading) {
    FieldProblem problem = assertThrows(FieldProblem.class, reading);
    assertEquals(error, problem.error());
    assertEquals(message, problem.getMessage());
  }

  @Test
  void readsValuesOfEachType() {
    assertEquals(-5, fields.integer("n", -5, -5));
    assertEquals(9_999_999_999L, fields.whole("big", 0, Long.MAX_VALUE));
    assertEquals(1.25e-3, fields.decimal("x", 0, 1));
    assertEquals("tone", fields.word("word", "table", "tone"));
    assertEquals(List.of(1, 2, 3), fields.integers("list", 1, 3));
  }

  @Test
  void namesKeyValueAndLimitOfWhatItCannotRead() {
    fails(JigError.FIELD_MISSING, "The field m is missing.", () -> fields.integer("m", 0, 1));
    fails(
        JigError.VALUE_OUT_OF_RANGE,
        "The field n is -5, but must lie from -4 to 0.",
        () -> fields.integer("n", -4, 0));
    fails(
        JigError.VALUE_OUT_OF_RANGE,
        "The field big is 9999999999, but must lie from 0 to 2147483647.",
        () -> fields.integer("big", 0, Integer.MAX_VALUE));
    fails(
        JigError.VALUE_MALFORMED,
        "The field word must be a whole number of at most ten digits, but is \"tone\".",
        () -> fields.integer("word", 0, 1));
    fails(
        JigError.VALUE_MALFORMED,
        "The field word must be one of table, dc, but is \"tone\".",
        () -> fields.word("word", "table", "dc"));
    fails(
        JigError.VALUE_OUT_OF_RANGE,
        "The field list is 3, but must lie from 0 to 2.",
        () -> fields.integers("list", 0, 2));
    fails(
        JigError.VALUE_OUT_OF_RANGE,
        "The field x is 1.25e-3, but must lie from 1.0 to 2.0.",
        () -> fields.decimal("x", 1, 2));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"NaN", "Infinity", "1.", ".5", "+1", "1E3", "0x1", "1e", "--1", "1f", "1,5"})
  void takesNoOtherFormOfDecimal(String text) {
    Fields odd = Fields.of("x", text);
    assertEquals(
        JigError.VALUE_MALFORMED,
        assertThrows(FieldProblem.class, () -> odd.decimal("x", -9, 9)).error());
  }

  @ParameterizedTest
  @ValueSource(strings = {"1,", ",1", "1,,2", ",", "1;2"})
  void takesNoOtherFormOfList(String text) {
    Fields odd = Fields.of("x", text);
    assertEquals(
        JigError.VALUE_MALFORMED,
        assertThrows(FieldProblem.class, () -> odd.integers("x", 0, 9)).error());
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "a b", "a~", "=", "a=b", "a===", "\n", "\u00e9"})
  void holdsNoValueThatTheGrammarForbids(String value) {
    assertThrows(IllegalArgumentException.class, () -> Fields.of("x", value));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "1a", "A", "a-b", "abcdefghijklmnopq", "a b"})
  void holdsNoKeyThatTheGrammarForbids(String key) {
    assertThrows(IllegalArgumentException.class, () -> Fields.of(key, "1"));
  }

  @Test
  void holdsNoKeyTwice() {
    assertThrows(IllegalArgumentException.class, () -> fields.with("n", 1));
  }
}
