package conewise.analysis.prediction;

import java.util.List;

/**
 * How far the curve at the terminals tells boxes with a fault from good ones of the same plan.
 *
 * @param kind in a word
 * @param told how many of the drawn boxes with the fault were told from a good one
 * @param drawn how many were drawn; 0 where nothing had to be
 * @param nearestSigmas of the drawn boxes, by how many standard deviations the nearest good box
 *     missed the curve of the one that came closest; 0 where {@code drawn} is
 */
public record Telling(Kind kind, int told, int drawn, double nearestSigmas) {
  /** The nearest box is told by a margin where noise that is rare (2.5 %) leaves it told. */
  private static final double MARGIN_SIGMAS = 1.96;

  /** In a word. */
  public enum Kind {
    /** Every box with the fault that was drawn is told, by a margin. */
    SURELY("shown surely"),
    /** Some may pass for good boxes whose parts lie off the plan. */
    PERHAPS("may hide behind tolerances"),
    /** The curve is a good box's, whatever its parts are. */
    NEVER("never shown"),
    /** No current passes: that cannot be overlooked. */
    OPEN("open circuit");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** For people: "may hide behind tolerances". */
    public String words() {
      return words;
    }
  }

  public Telling {
    if (told < 0 || told > drawn) {
      throw new IllegalArgumentException(
          told + " of " + drawn + " drawn boxes were told; it must be 0 to " + drawn);
    }
  }

  static Telling of(Kind kind) {
    return new Telling(kind, 0, 0, 0);
  }

  /**
   * Of drawn boxes.
   *
   * @param sigmas for each of at least one box by how many standard deviations it is off a good one
   * @param enough what is needed to tell it from a good one
   */
  static Telling of(List<Double> sigmas, double enough) {
    int told = (int) sigmas.stream().filter(each -> each >= enough).count();
    double nearest = sigmas.stream().mapToDouble(each -> each).min().orElseThrow();
    boolean surely = nearest >= enough + MARGIN_SIGMAS;
    return new Telling(surely ? Kind.SURELY : Kind.PERHAPS, told, sigmas.size(), nearest);
  }
}
