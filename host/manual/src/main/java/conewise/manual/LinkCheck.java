package conewise.manual;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Image;
import org.commonmark.node.Link;

/** Holds every link of the pages as they stand in the repository. */
final class LinkCheck {
  private final Repository repository;
  private final List<String> mistakes = new ArrayList<>();

  private LinkCheck(Repository repository) {
    this.repository = repository;
  }

  /**
   * Looks at all pages.
   *
   * @return a sentence for each link that leads nowhere, each anchor that no heading has, each
   *     picture that is not there or says nothing to who cannot see it, and each page that the
   *     table of contents does not list exactly once
   */
  static List<String> mistakes(Repository repository) {
    LinkCheck check = new LinkCheck(repository);
    repository.pages().values().forEach(check::look);
    check.lookAtContents();
    return check.mistakes;
  }

  private void look(Page page) {
    page.content()
        .accept(
            new AbstractVisitor() {
              @Override
              public void visit(Link link) {
                lookAt(page, link.getDestination());
                visitChildren(link);
              }

              @Override
              public void visit(Image image) {
                lookAt(page, image.getDestination());
                if (Anchors.text(image).isBlank()) {
                  mistakes.add(
                      page.place()
                          + ": the picture "
                          + image.getDestination()
                          + " has no words for who cannot see it.");
                }
              }
            });
  }

  private void lookAt(Page page, String link) {
    if (Target.leadsOut(link)) {
      return;
    }
    Target target = Target.of(page.place(), link);
    if (!repository.has(target.place())) {
      mistakes.add(page.place() + ": " + link + " leads nowhere; there is no " + target.place());
      return;
    }
    if (!target.anchor().isEmpty()) {
      Page other = repository.pageAt(target.place());
      if (other == null || !other.anchors().containsValue(target.anchor())) {
        mistakes.add(page.place() + ": " + link + " names a heading that is not there.");
      }
    }
  }

  private void lookAtContents() {
    Page page = repository.pages().get(Repository.CONTENTS);
    if (page == null) {
      mistakes.add("There is no " + Repository.CONTENTS + ", the table of contents.");
      return;
    }
    Set<String> listed = new HashSet<>();
    for (Contents.Entry entry : Contents.of(page).entries()) {
      Page shown = repository.pageAt(entry.place());
      if (shown == null) {
        mistakes.add(Repository.CONTENTS + " lists " + entry.place() + ", which is no page.");
      } else if (!listed.add(shown.place())) {
        mistakes.add(Repository.CONTENTS + " lists " + entry.place() + " twice.");
      }
    }
    for (String place : repository.pages().keySet()) {
      if (!place.equals(Repository.CONTENTS) && !listed.contains(place)) {
        mistakes.add(place + " is not in the table of contents: list it in " + Repository.CONTENTS);
      }
    }
  }
}
