package conewise.manual;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.HardLineBreak;
import org.commonmark.node.Heading;
import org.commonmark.node.Node;
import org.commonmark.node.SoftLineBreak;
import org.commonmark.node.Text;

/**
 * The anchors of a page's headings, named as repository hosts name them: lower case, blanks as
 * hyphens, all but letters, digits, hyphens and underscores left out, and a number behind a name
 * that was there before (common practice).
 */
final class Anchors {
  private Anchors() {}

  /**
   * Of all headings of a page.
   *
   * @param page a parsed page
   * @return each heading's anchor, in the page's order
   */
  static Map<Heading, String> of(Node page) {
    Map<Heading, String> anchors = new LinkedHashMap<>();
    Map<String, Integer> seen = new HashMap<>();
    page.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Heading heading) {
            String name = named(text(heading));
            int before = seen.merge(name, 1, Integer::sum) - 1;
            anchors.put(heading, before == 0 ? name : name + "-" + before);
          }
        });
    return anchors;
  }

  /** The anchor of a heading's text, where no other of the page is the same. */
  static String named(String text) {
    return text.toLowerCase(Locale.ROOT)
        .replaceAll("[^\\p{L}\\p{N} _-]", "")
        .strip()
        .replace(' ', '-');
  }

  /** What is read of a node, without its marks. */
  static String text(Node node) {
    StringBuilder text = new StringBuilder();
    node.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Text each) {
            text.append(each.getLiteral());
          }

          @Override
          public void visit(Code each) {
            text.append(each.getLiteral());
          }

          @Override
          public void visit(SoftLineBreak each) {
            text.append(' ');
          }

          @Override
          public void visit(HardLineBreak each) {
            text.append(' ');
          }
        });
    return text.toString();
  }
}
