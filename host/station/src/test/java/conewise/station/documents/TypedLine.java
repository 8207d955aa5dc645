package conewise.station.documents;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** One line that a reader types, as a shell would split it. */
final class TypedLine {
  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|'([^']*)'|(\\S+)");

  private TypedLine() {}

  /** The words before the remark, which begins with a hash or after three blanks. */
  static List<String> words(String line) {
    String typed = line.replaceFirst("^(.*?\\S)(?: {3,}| +#).*$", "$1");
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(typed);
    while (word.find()) {
      String plain = word.group(1) == null ? word.group(2) : word.group(1);
      words.add(plain == null ? word.group(3) : plain);
    }
    return words;
  }
}
