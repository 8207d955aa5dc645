package conewise.station.records;

import conewise.analysis.judgement.Decision;
import java.time.Instant;

/**
 * A person decided otherwise than the verdict.
 *
 * @param at when
 * @param by who, 1 to 80 characters
 * @param decision what they decided: pass or fail
 * @param reason why, 1 to 1000 characters
 */
public record Overruling(Instant at, String by, Decision decision, String reason) {
  public Overruling {
    Words.require("the name of who overrules", by, 80);
    Words.require("the reason for overruling", reason, 1000);
    if (decision != Decision.PASS && decision != Decision.FAIL) {
      throw new IllegalArgumentException(
          "a verdict is overruled to pass or fail; this one to " + decision);
    }
  }
}
