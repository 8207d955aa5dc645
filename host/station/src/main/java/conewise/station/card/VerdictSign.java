package conewise.station.card;

import conewise.analysis.judgement.Decision;
import java.util.Locale;

/**
 * How a decision is shown: always by word and shape, and by colour besides. The hues are of the
 * Okabe-Ito set (Okabe and Ito, Color Universal Design, 2008; from memory), which people with any
 * of the common kinds of colour vision can tell apart; each bears dark ink with a contrast above
 * 5:1.
 */
public enum VerdictSign {
  PASS("PASS", "[ok]", "#009E73"),
  FAIL("FAIL", "[x]", "#D55E00"),
  UNDECIDED("UNDECIDED", "[?]", "#E69F00"),
  NOT_JUDGED("NOT JUDGED", "[-]", "#999999");

  private final String word;
  private final String shape;
  private final String hue;

  VerdictSign(String word, String shape, String hue) {
    this.word = word;
    this.shape = shape;
    this.hue = hue;
  }

  /** The sign of a decision. */
  public static VerdictSign of(Decision decision) {
    return switch (decision) {
      case PASS -> PASS;
      case FAIL -> FAIL;
      case UNDECIDED -> UNDECIDED;
      case NOT_JUDGED -> NOT_JUDGED;
    };
  }

  /** The word in capitals, e.g. {@code NOT JUDGED}. */
  public String word() {
    return word;
  }

  /** The shape in plain ASCII, e.g. {@code [x]}. */
  public String shape() {
    return shape;
  }

  /** The colour as {@code #RRGGBB}. */
  public String hue() {
    return hue;
  }

  /** The word as programs read it, e.g. {@code not-judged}. */
  public String machineWord() {
    return word.toLowerCase(Locale.ROOT).replace(' ', '-');
  }
}
