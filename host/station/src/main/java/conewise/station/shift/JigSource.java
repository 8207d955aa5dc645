package conewise.station.shift;

import conewise.jig.client.JigClient;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import java.time.ZonedDateTime;

/** Where a bench's jig comes from, and with which calibration it measures. */
public interface JigSource {
  /**
   * Reaches the jig, within some seconds.
   *
   * @throws CommandFailure with a sentence for people, when it does not answer
   */
  JigClient connect() throws CommandFailure;

  /**
   * How to sweep with this jig.
   *
   * @throws CommandFailure when the calibration is another jig's
   */
  SweepSettings settings(JigIdentity jig) throws CommandFailure;

  /** What a card says of the calibration. */
  String calibration(ZonedDateTime now);
}
