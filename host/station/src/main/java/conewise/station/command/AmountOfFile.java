package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.files.NumberText;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.OptionalDouble;

/**
 * An option's {@code AMOUNT=FILE}.
 *
 * @param amount the number before the first equals sign
 * @param file what follows it
 */
record AmountOfFile(double amount, Path file) {

  /**
   * Takes it apart.
   *
   * @param option the option, for the sentence when it is wrong
   * @param text what was given
   * @param example what it may look like
   */
  static AmountOfFile parse(String option, String text, String example) throws CommandFailure {
    int sign = text.indexOf('=');
    if (sign < 0 || sign == text.length() - 1) {
      throw wrong(option, text, "wants a number, an equals sign and a file", example);
    }
    OptionalDouble amount = NumberText.parse(text.substring(0, sign).strip());
    if (amount.isEmpty()) {
      throw wrong(option, text, "begins with no number (" + NumberText.ALLOWED + ")", example);
    }
    try {
      return new AmountOfFile(amount.getAsDouble(), Path.of(text.substring(sign + 1)));
    } catch (InvalidPathException nameless) {
      throw wrong(option, text, "names no file", example);
    }
  }

  private static CommandFailure wrong(String option, String text, String how, String example) {
    return new CommandFailure(
        ExitCode.USAGE,
        option + " \"" + text + "\" " + how + "; write it like " + option + " " + example + ".");
  }
}
