package conewise.manual;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.Heading;
import org.commonmark.node.Node;
import org.commonmark.parser.Parser;

/**
 * One page of the repository.
 *
 * @param place its file, from the repository's root, with forward slashes
 * @param content what stands in it, parsed
 * @param anchors its headings and their anchors, in the page's order
 */
record Page(String place, Node content, Map<Heading, String> anchors) {
  private static final Parser PARSER =
      Parser.builder().extensions(List.of(TablesExtension.create())).build();

  static Page read(Path root, Path file) throws IOException {
    Node content = PARSER.parse(Files.readString(file));
    return new Page(
        root.relativize(file).toString().replace('\\', '/'), content, Anchors.of(content));
  }

  /** The text of its first heading, or its file's name. */
  String title() {
    return anchors.keySet().stream().findFirst().map(Anchors::text).orElse(place);
  }

  /** Whether another is this page; no page is not. */
  boolean is(Page other) {
    return other != null && other.place.equals(place);
  }

  /** The file of this page in the set: {@code README.md} is its folder's {@code index.html}. */
  String htmlPlace() {
    return htmlPlace(place);
  }

  static String htmlPlace(String place) {
    return place.replaceFirst("(^|/)README\\.md$", "$1index.html").replaceFirst("\\.md$", ".html");
  }
}
