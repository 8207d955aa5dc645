package conewise.manual;

import java.nio.file.Path;

/**
 * Where a link of a page leads.
 *
 * @param place a file or folder from the repository's root, with forward slashes; empty for the
 *     root itself
 * @param anchor what stands behind the link's {@code #}; empty where nothing does
 */
record Target(String place, String anchor) {

  /** Whether a link leads out of the repository, to the web or a post box. */
  static boolean leadsOut(String link) {
    return link.matches("[a-zA-Z][a-zA-Z0-9+.-]*:.*") || link.startsWith("//");
  }

  /**
   * Resolves a link.
   *
   * @param from the page that it stands on
   * @param link as written, not one that leads out
   */
  static Target of(String from, String link) {
    int sign = link.indexOf('#');
    String path = sign < 0 ? link : link.substring(0, sign);
    String anchor = sign < 0 ? "" : link.substring(sign + 1);
    if (path.isEmpty()) {
      return new Target(from, anchor);
    }
    Path folder = Path.of("/" + from).getParent();
    String place = folder.resolve(path).normalize().toString().replace('\\', '/');
    return new Target(place.substring(1), anchor);
  }

  /** The way from one file of the set to another. */
  static String way(String from, String to) {
    Path folder = Path.of("/" + from).getParent();
    return folder.relativize(Path.of("/" + to)).toString().replace('\\', '/');
  }
}
