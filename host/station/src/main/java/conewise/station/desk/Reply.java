package conewise.station.desk;

/** What is answered to who asked for a page. */
public sealed interface Reply {
  /**
   * A page.
   *
   * @param status of HTTP: 200, 404, ...
   * @param html the whole page
   */
  record Page(int status, String html) implements Reply {}

  /**
   * The page is elsewhere.
   *
   * @param address its path and query on this server
   */
  record Elsewhere(String address) implements Reply {}

  /** A page with what was asked for. */
  static Reply found(String html) {
    return new Page(200, html);
  }

  /** A page that says what of the question has to be mended. */
  static Reply toMend(String html) {
    return new Page(400, html);
  }
}
