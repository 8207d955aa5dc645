package conewise.manual;

import java.util.List;
import java.util.Map;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Heading;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.Image;
import org.commonmark.node.Link;
import org.commonmark.node.Node;
import org.commonmark.renderer.html.HtmlRenderer;

/** One page of the set as HTML: the table of contents, the page, and the ways back and forth. */
final class PageHtml {
  private final Repository repository;
  private final Contents contents;

  PageHtml(Repository repository, Contents contents) {
    this.repository = repository;
    this.contents = contents;
  }

  String of(Page page) {
    return """
    <!doctype html>
    <html lang="en">
    <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <title>%s - Conewise</title>
    <link rel="stylesheet" href="%s">
    </head>
    <body>
    <a class="skip" href="#page">To the page</a>
    <nav class="contents" aria-label="All pages">
    <details class="narrow"><summary>All pages</summary>
    %s</details>
    <div class="wide">
    %s</div>
    </nav>
    <main id="page">
    %s%s</main>
    </body>
    </html>
    """
        .formatted(
            escaped(page.title()),
            Target.way(page.htmlPlace(), ManualFolder.STYLE),
            list(page, false),
            list(page, true),
            body(page),
            neighbours(page));
  }

  /** The pages by groups, the open page's group unfolded, its own headings below it. */
  private String list(Page open, boolean wide) {
    StringBuilder html = new StringBuilder();
    html.append("<p>").append(entry(open, "The manual", Repository.CONTENTS)).append("</p>\n");
    for (Contents.Group group : contents.groups()) {
      boolean unfolded = !wide || open.place().equals(Repository.CONTENTS) || holds(group, open);
      html.append(unfolded ? "<details open>" : "<details>");
      html.append("<summary>").append(escaped(group.name())).append("</summary>\n<ul>\n");
      for (Contents.Entry each : group.entries()) {
        html.append("<li>").append(entry(open, each.words(), each.place()));
        if (wide && open.is(repository.pageAt(each.place()))) {
          html.append(headings(open));
        }
        html.append("</li>\n");
      }
      html.append("</ul>\n</details>\n");
    }
    return html.toString();
  }

  private boolean holds(Contents.Group group, Page page) {
    return group.entries().stream().anyMatch(each -> page.is(repository.pageAt(each.place())));
  }

  private String entry(Page open, String words, String place) {
    Page page = repository.pageAt(place);
    return "<a href=\"%s\"%s>%s</a>"
        .formatted(
            Target.way(open.htmlPlace(), page.htmlPlace()),
            open.is(page) ? " aria-current=\"page\"" : "",
            escaped(words));
  }

  private static String headings(Page page) {
    StringBuilder html = new StringBuilder();
    for (Map.Entry<Heading, String> each : page.anchors().entrySet()) {
      if (each.getKey().getLevel() == 2) {
        html.append("<li><a href=\"#%s\">".formatted(each.getValue()))
            .append(escaped(Anchors.text(each.getKey())))
            .append("</a></li>\n");
      }
    }
    return html.isEmpty() ? "" : "\n<ul>\n" + html + "</ul>\n";
  }

  private String body(Page page) {
    Node content = page.content();
    content.accept(
        new AbstractVisitor() {
          @Override
          public void visit(HtmlBlock block) {
            // Marks for the tests, not for readers.
            if (block.getLiteral().startsWith("<!--")) {
              block.unlink();
            }
          }
        });
    HtmlRenderer renderer =
        HtmlRenderer.builder()
            .extensions(List.of(TablesExtension.create()))
            .escapeHtml(true)
            .attributeProviderFactory(
                context -> (node, tag, attributes) -> place(page, node, tag, attributes))
            .build();
    return renderer
        .render(content)
        .replace("<table>", "<div class=\"scroll\" tabindex=\"0\"><table>")
        .replace("</table>", "</table></div>");
  }

  private void place(Page page, Node node, String tag, Map<String, String> attributes) {
    if (node instanceof Heading heading) {
      attributes.put("id", page.anchors().get(heading));
    } else if (node instanceof Link link) {
      attributes.put("href", shown(page, link.getDestination()));
    } else if (node instanceof Image image) {
      attributes.put("src", shown(page, image.getDestination()));
    } else if (tag.equals("pre")) {
      attributes.put("tabindex", "0");
    }
  }

  private String shown(Page page, String link) {
    if (Target.leadsOut(link)) {
      return link;
    }
    Target target = Target.of(page.place(), link);
    Page other = repository.pageAt(target.place());
    String place = other == null ? target.place() : other.htmlPlace();
    String way = page.is(other) ? "" : Target.way(page.htmlPlace(), place);
    return target.anchor().isEmpty() ? way : way + "#" + target.anchor();
  }

  private String neighbours(Page page) {
    List<Contents.Entry> all = contents.entries();
    int at = -1;
    for (int i = 0; i < all.size(); i++) {
      at = page.is(repository.pageAt(all.get(i).place())) ? i : at;
    }
    StringBuilder html =
        new StringBuilder("<nav class=\"neighbours\" aria-label=\"Back and forth\">\n");
    if (at > 0) {
      Contents.Entry before = all.get(at - 1);
      html.append("<span>Before: ").append(entry(page, before.words(), before.place()));
      html.append("</span>\n");
    }
    if (at + 1 < all.size()) {
      Contents.Entry next = all.get(at + 1);
      html.append("<span>Next: ").append(entry(page, next.words(), next.place()));
      html.append("</span>\n");
    }
    return html.append("</nav>\n").toString();
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
