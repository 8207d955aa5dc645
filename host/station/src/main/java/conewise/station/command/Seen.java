package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.util.List;
import java.util.Map;

/**
 * What was seen of a part of a box: {@code left=out}.
 *
 * @param part the part's name
 * @param what was seen
 */
record Seen<T>(String part, T what) {

  /**
   * Reads one.
   *
   * @param option the option that it was given with
   * @param kind what the parts are, for people
   * @param allowed the words, for people
   * @param text what was given
   * @param parts those of the plan
   * @param words by what they say
   */
  static <T> Seen<T> read(
      String option,
      String kind,
      String allowed,
      String text,
      List<String> parts,
      Map<String, T> words)
      throws CommandFailure {
    if (parts.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, option + " was given, and the plan has no " + kind + "; leave it out.");
    }
    int sign = text.lastIndexOf('=');
    String part = sign < 0 ? "" : text.substring(0, sign);
    T what = words.get(text.substring(sign + 1));
    if (!parts.contains(part) || what == null) {
      throw new CommandFailure(
          ExitCode.USAGE,
          option
              + " \""
              + text
              + "\" wants a "
              + kind
              + " of the plan ("
              + String.join(", ", parts)
              + "), an equals sign and "
              + allowed
              + "; write it like "
              + option
              + " "
              + parts.get(0)
              + "="
              + allowed.substring(0, allowed.indexOf(','))
              + ".");
    }
    return new Seen<>(part, what);
  }
}
