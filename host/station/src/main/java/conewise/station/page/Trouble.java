package conewise.station.page;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Verdict;
import java.util.Locale;
import java.util.Optional;

/**
 * A trouble of the bench, not of the box: by word, shape and colour, each apart from the others and
 * from the verdicts' signs without its colour.
 */
enum Trouble {
  NO_JIG("NO JIG", "no-jig", "M3 24L24 3L45 24L24 45Z", "M24 13V28M24 35v.2"),
  NOT_KEPT("NOT KEPT", "not-kept", "M6 5H34L43 14V43H6Z", "M15 18L33 36M33 18L15 36"),
  /** A moon. */
  SLEPT("SLEPT", "slept", "M31 3A22 22 0 1 0 45 33A18 18 0 0 1 31 3Z", ""),
  /** A burst on a line: noise, music, a knock, a clip that jumps, which a record tells of alike. */
  NOISE("NOISE", "noise", "M2 8H46V40H2Z", "M7 24H13L18 14L23 34L28 12L33 31L36 24H41"),
  /** Something else drives the terminals: an amplifier, or sound by the cones. */
  VOLTAGE("VOLTAGE", "voltage", "M2 6H46L24 45Z", "M27 10L20 20H28L21 31"),
  /** Two that are not alike. */
  WRONG_JOB("WRONG JOB", "wrong-job", "M12 6H46L36 42H2Z", "M14 20H34M14 29H34M29 13L19 36"),
  /** The challenge is open, or a check resistor has drifted. */
  FIXTURE("FIXTURE", "fixture", "M24 3L45 19L37 44H11L3 19Z", "M24 14V27M24 35v.2");

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

  /** The trouble that is to blame that a box was not judged, where it has a sign of its own. */
  static Optional<Trouble> toBlameFor(Verdict verdict) {
    return verdict.decision() == Decision.NOT_JUDGED
        ? verdict.bench().stream()
            .filter(BenchFinding::spoils)
            .findFirst()
            .flatMap(finding -> of(finding.kind()))
        : Optional.empty();
  }

  private static Optional<Trouble> of(BenchFinding.Kind kind) {
    return switch (kind) {
      case TOO_NOISY, LOOSE_CLIP -> Optional.of(NOISE);
      case FOREIGN_VOLTAGE -> Optional.of(VOLTAGE);
      case OTHER_BOX -> Optional.of(WRONG_JOB);
      case FIXTURE -> Optional.of(FIXTURE);
      case CLIPPED, HUM, OPEN_TERMINALS, SHORTED_TERMINALS, LINK, CALIBRATION, COVERAGE ->
          Optional.empty();
    };
  }

  /** The word as it is read aloud: {@code Wrong job.} */
  String said() {
    return word.charAt(0) + word.substring(1).toLowerCase(Locale.ROOT) + ".";
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
