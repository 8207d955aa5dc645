package conewise.station.shift;

import conewise.analysis.judgement.Verdict;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import java.time.ZonedDateTime;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** Where a bench's jig comes from, and with which calibration it measures. */
public interface JigSource {
  /**
   * Reaches the jig, within some seconds.
   *
   * @throws CommandFailure with a sentence for people, when it does not answer
   */
  JigClient connect() throws CommandFailure;

  /**
   * With which calibration to sweep this jig now.
   *
   * @throws CommandFailure when the calibration is another jig's, or cannot be read
   */
  Calibrated calibrated(JigIdentity jig, ZonedDateTime now) throws CommandFailure;

  /**
   * A calibration as it stands.
   *
   * @param settings how to sweep with it
   * @param words what a card says of it
   * @param rule the shop's rule on it: may turn a pass into not judged
   * @param due that it must be made anew soon, a sentence, where that is so
   */
  record Calibrated(
      SweepSettings settings, String words, UnaryOperator<Verdict> rule, Optional<String> due) {
    /** One that is not due soon. */
    public Calibrated(SweepSettings settings, String words, UnaryOperator<Verdict> rule) {
      this(settings, words, rule, Optional.empty());
    }

    /** None, and no rule. */
    public static Calibrated none() {
      return new Calibrated(
          SweepSettings.standard(), "none: nominal scales", UnaryOperator.identity());
    }
  }
}
