package conewise.manual;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The pages of a repository: those in its root, and all below the folders that hold pages for
 * people.
 *
 * @param root its folder
 * @param pages by their place, in the order of places
 */
record Repository(Path root, Map<String, Page> pages) {
  private static final List<String> FOLDERS =
      List.of("docs", "hardware-notes", "protocol", "firmware-sim");

  /** Where the table of contents stands. */
  static final String CONTENTS = "docs/README.md";

  static Repository read(Path root) throws IOException {
    Map<String, Page> pages = new LinkedHashMap<>();
    try (Stream<Path> files = Files.list(root)) {
      add(root, files, pages);
    }
    for (String folder : FOLDERS) {
      if (Files.isDirectory(root.resolve(folder))) {
        try (Stream<Path> files = Files.walk(root.resolve(folder))) {
          add(root, files, pages);
        }
      }
    }
    return new Repository(root, pages);
  }

  private static void add(Path root, Stream<Path> files, Map<String, Page> pages)
      throws IOException {
    for (Path file : files.filter(each -> isPage(root, each)).sorted().toList()) {
      Page page = Page.read(root, file);
      pages.put(page.place(), page);
    }
  }

  /** What a build has made is no page of the repository. */
  private static boolean isPage(Path root, Path file) {
    String place = "/" + root.relativize(file).toString().replace('\\', '/');
    return place.endsWith(".md")
        && Files.isRegularFile(file)
        && !place.contains("/target/")
        && !place.contains("/build/");
  }

  /** Whether a file or folder stands in the repository. */
  boolean has(String place) {
    return Files.exists(root.resolve(place));
  }

  /** The page that a place shows: itself, or a folder's {@code README.md}. */
  Page pageAt(String place) {
    Page page = pages.get(place);
    return page != null ? page : pages.get(place.isEmpty() ? "README.md" : place + "/README.md");
  }
}
