package conewise.station.page;

/**
 * A trouble of the bench, not of the box: by word, shape and colour, each apart from the others and
 * from the verdicts' signs without its colour.
 */
enum Trouble {
  NO_JIG("NO JIG", "no-jig", "M3 24L24 3L45 24L24 45Z", "M24 13V28M24 35v.2"),
  NOT_KEPT("NOT KEPT", "not-kept", "M6 5H34L43 14V43H6Z", "M15 18L33 36M33 18L15 36"),
  /** A moon. */
  SLEPT("SLEPT", "slept", "M31 3A22 22 0 1 0 45 33A18 18 0 0 1 31 3Z", "");

  private final String word;
  private final String machineWord;
  private final String outline;
  private final String stroke;

  Trouble(String word, String machineWord, String outline, String stroke) {
    this.word = word;
    this.machineWord = machineWord;
    this.outline = outline;
    this.stroke = stroke;
  }

  /**
   * The sign, and below it what it is about.
   *
   * @param how what is the matter and what to do, plain text of this program's own
   */
  String html(String how) {
    return sign() + "<p class=\"how\">" + how + "</p>";
  }

  /** The sign alone. */
  String sign() {
    return "<section class=\"verdict trouble "
        + machineWord
        + "\" aria-label=\"Trouble\"><svg class=\"sign\" viewBox=\"0 0 48 48\""
        + " aria-hidden=\"true\"><path class=\"shape\" d=\""
        + outline
        + "\"/><path class=\"stroke\" d=\""
        + stroke
        + "\"/></svg><p class=\"word\">"
        + word
        + "</p></section>";
  }
}
