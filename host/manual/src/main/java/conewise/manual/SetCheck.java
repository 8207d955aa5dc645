package conewise.manual;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Holds every link of the set as it was written, without asking what it was written from. */
final class SetCheck {
  private final Path folder;
  private final Map<String, String> pages = new TreeMap<>();
  private final List<String> mistakes = new ArrayList<>();

  private static final Pattern LINK = Pattern.compile(" (?:href|src)=\"([^\"]*)\"");

  private SetCheck(Path folder) {
    this.folder = folder;
  }

  /**
   * Looks at all pages of a set.
   *
   * @return a sentence for each link to a file that is not there or to an anchor that its page has
   *     not exactly once, and for each page that would run a script
   */
  static List<String> mistakes(Path folder) throws IOException {
    SetCheck check = new SetCheck(folder);
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(each -> each.toString().endsWith(".html")).toList()) {
        String place = folder.relativize(file).toString().replace('\\', '/');
        check.pages.put(place, Files.readString(file));
      }
    }
    check.pages.forEach(check::look);
    return check.mistakes;
  }

  private void look(String place, String html) {
    if (html.contains("<script")) {
      mistakes.add(place + " has a script.");
    }
    Matcher link = LINK.matcher(html);
    while (link.find()) {
      String mistake = mistake(place, link.group(1));
      if (!mistake.isEmpty()) {
        mistakes.add(place + ": " + link.group(1) + " " + mistake);
      }
    }
  }

  private String mistake(String place, String link) {
    if (Target.leadsOut(link)) {
      return "";
    }
    Target target = Target.of(place, link);
    if (!Files.isRegularFile(folder.resolve(target.place()))) {
      return "leads nowhere.";
    }
    if (target.anchor().isEmpty()) {
      return "";
    }
    String html = pages.getOrDefault(target.place(), "");
    String id = " id=\"" + target.anchor() + "\"";
    int first = html.indexOf(id);
    return first >= 0 && html.indexOf(id, first + 1) < 0 ? "" : "has no such anchor, or two.";
  }
}
