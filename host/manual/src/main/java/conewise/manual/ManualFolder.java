package conewise.manual;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Set;
import java.util.TreeSet;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Image;
import org.commonmark.node.Link;

/** Writes the set: a folder that mirrors the repository, with all that the pages link to. */
final class ManualFolder {
  static final String STYLE = "manual.css";

  private final Repository repository;
  private final Path folder;

  ManualFolder(Repository repository, Path folder) {
    this.repository = repository;
    this.folder = folder;
  }

  void write() throws IOException {
    PageHtml html =
        new PageHtml(repository, Contents.of(repository.pages().get(Repository.CONTENTS)));
    for (Page page : repository.pages().values()) {
      Files.writeString(made(page.htmlPlace()), html.of(page));
    }
    for (String file : linkedFiles()) {
      Files.copy(repository.root().resolve(file), made(file), StandardCopyOption.REPLACE_EXISTING);
    }
    try (InputStream style = ManualFolder.class.getResourceAsStream(STYLE)) {
      Files.copy(style, made(STYLE), StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private Path made(String place) throws IOException {
    Path file = folder.resolve(place);
    Files.createDirectories(file.getParent());
    return file;
  }

  private Set<String> linkedFiles() {
    Set<String> files = new TreeSet<>();
    for (Page page : repository.pages().values()) {
      page.content()
          .accept(
              new AbstractVisitor() {
                @Override
                public void visit(Link link) {
                  add(page, link.getDestination(), files);
                  visitChildren(link);
                }

                @Override
                public void visit(Image image) {
                  add(page, image.getDestination(), files);
                }
              });
    }
    return files;
  }

  private void add(Page page, String link, Set<String> files) {
    if (!Target.leadsOut(link)) {
      String place = Target.of(page.place(), link).place();
      if (repository.pageAt(place) == null
          && Files.isRegularFile(repository.root().resolve(place))) {
        files.add(place);
      }
    }
  }
}
