package conewise.station.documents;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Lines of a page that stand together under the marks above them: a fenced block, or a picture.
 *
 * @param first index of its first inner line; of a picture, of its line
 * @param end index behind its last inner line
 * @param info what stands behind the opening fence; {@code picture} for a picture
 * @param lines what is inside
 * @param marks the one-line HTML comments right above, without their brackets
 */
record PageBlock(int first, int end, String info, List<String> lines, List<String> marks) {
  private static final Pattern MARK = Pattern.compile("<!-- (.*) -->");
  private static final Pattern COMMAND =
      Pattern.compile("(\\./|\\.\\./|cp |cd |make |java |echo |createdb |avrdude )\\S.*|make");

  static List<PageBlock> of(List<String> page) {
    List<PageBlock> blocks = new ArrayList<>();
    List<String> marks = new ArrayList<>();
    for (int i = 0; i < page.size(); i++) {
      String line = page.get(i);
      Matcher mark = MARK.matcher(line);
      if (mark.matches()) {
        marks.add(mark.group(1));
      } else if (line.startsWith("```")) {
        int end = i + 1;
        while (!page.get(end).equals("```")) {
          end++;
        }
        blocks.add(block(page, i + 1, end, line.substring(3), marks));
        i = end;
        marks.clear();
      } else if (line.startsWith("![")) {
        blocks.add(block(page, i, i + 1, "picture", marks));
        marks.clear();
      } else if (!line.isBlank()) {
        marks.clear();
      }
    }
    return blocks;
  }

  private static PageBlock block(
      List<String> page, int first, int end, String info, List<String> marks) {
    return new PageBlock(
        first, end, info, List.copyOf(page.subList(first, end)), List.copyOf(marks));
  }

  /** What stands behind a mark's name; the name may be a pattern with groups. */
  Optional<Matcher> marked(String pattern) {
    return marks.stream()
        .map(Pattern.compile(pattern)::matcher)
        .filter(Matcher::matches)
        .findFirst();
  }

  /** Commands that prepare what the block takes for granted, in order. */
  List<String> before() {
    return marks.stream()
        .filter(mark -> mark.startsWith("before: "))
        .map(mark -> mark.substring("before: ".length()))
        .toList();
  }

  /** Whether it is something that a reader would type. */
  boolean hasCommands() {
    return (info.isEmpty() || info.equals("sh"))
        && lines.stream().anyMatch(line -> COMMAND.matcher(line).matches());
  }
}
