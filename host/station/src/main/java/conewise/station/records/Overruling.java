package conewise.station.records;

import conewise.analysis.judgement.Decision;
import java.time.Instant;
import java.util.Locale;

/**
 * A person decided otherwise than the verdict.
 *
 * @param at when
 * @param by who, 1 to 80 characters
 * @param decision what they decided: pass or fail
 * @param reason why, 1 to 1000 characters
 */
public record Overruling(Instant at, String by, Decision decision, String reason) {
  /** The longest name of who overrules, in characters. */
  public static final int MOST_OF_NAME = 80;

  /** The longest reason, in characters. */
  public static final int MOST_OF_REASON = 1000;

  public Overruling {
    requireName(by);
    requireReason(reason);
    if (decision != Decision.PASS && decision != Decision.FAIL) {
      throw new IllegalArgumentException(
          "a verdict is overruled to pass or fail; this one to " + decision);
    }
  }

  /** Refuses what is no name, in a sentence that begins small and has no full stop. */
  public static void requireName(String by) {
    Words.require("the name of who overrules", by, MOST_OF_NAME);
  }

  /** Refuses what is no reason, in the same way. */
  public static void requireReason(String reason) {
    Words.require("the reason for overruling", reason, MOST_OF_REASON);
  }

  /**
   * An overruling of a run that somebody has before them.
   *
   * @param shown the run
   * @param serial the box's number as that person has it; no other box's run is overruled
   * @throws IllegalArgumentException where the number is another's, where this is decided already,
   *     or as the constructor does; a sentence that begins small and has no full stop
   */
  public static Overruling of(
      KeptRun shown, String serial, Instant at, String by, Decision decision, String reason) {
    if (!shown.run().serial().equals(serial)) {
      throw new IllegalArgumentException(
          "run "
              + shown.id()
              + " is of box "
              + shown.run().serial()
              + " and not of "
              + serial
              + ", so nothing was overruled");
    }
    if (shown.standing() == decision) {
      throw new IllegalArgumentException(
          "run "
              + shown.id()
              + " stands at "
              + decision.name().toLowerCase(Locale.ROOT)
              + " already, so there is nothing to overrule");
    }
    return new Overruling(at, by.strip(), decision, reason.strip());
  }

  /** For people: {@code Overruled by Grace: It hums.} */
  public String words() {
    return "Overruled by " + by + ": " + reason;
  }
}
