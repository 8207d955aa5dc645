package conewise.manual;

import java.util.ArrayList;
import java.util.List;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Heading;
import org.commonmark.node.Link;
import org.commonmark.node.ListItem;

/**
 * The table of contents: what {@code docs/README.md} lists, under its own headings and in its own
 * order. The first link of each item is the page that it stands for.
 *
 * @param groups its groups, in order
 */
record Contents(List<Group> groups) {

  /**
   * Pages under one heading.
   *
   * @param name the heading
   * @param entries the pages
   */
  record Group(String name, List<Entry> entries) {}

  /**
   * One page.
   *
   * @param words the link's own words
   * @param place the page, from the repository's root
   */
  record Entry(String words, String place) {}

  static Contents of(Page page) {
    List<Group> groups = new ArrayList<>();
    page.content()
        .accept(
            new AbstractVisitor() {
              @Override
              public void visit(Heading heading) {
                if (heading.getLevel() == 2) {
                  groups.add(new Group(Anchors.text(heading), new ArrayList<>()));
                }
              }

              @Override
              public void visit(ListItem item) {
                Link link = firstLink(item);
                if (link != null && !groups.isEmpty() && !Target.leadsOut(link.getDestination())) {
                  String place = Target.of(page.place(), link.getDestination()).place();
                  groups.get(groups.size() - 1).entries.add(new Entry(Anchors.text(link), place));
                }
                visitChildren(item);
              }
            });
    return new Contents(groups);
  }

  private static Link firstLink(ListItem item) {
    Link[] found = new Link[1];
    item.accept(
        new AbstractVisitor() {
          @Override
          public void visit(Link link) {
            found[0] = found[0] == null ? link : found[0];
          }
        });
    return found[0];
  }

  /** All entries, in order. */
  List<Entry> entries() {
    return groups.stream().flatMap(group -> group.entries.stream()).toList();
  }
}
