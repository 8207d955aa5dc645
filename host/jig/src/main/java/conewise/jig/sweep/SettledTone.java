package conewise.jig.sweep;

import conewise.analysis.excitation.ScheduledTone;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.Recording;
import conewise.jig.client.Wave;
import java.util.Locale;
import java.util.Optional;

/**
 * Holds one tone until two successive readings agree within their uncertainty, or says that they do
 * not.
 */
final class SettledTone {

  /** Readings of one tone at most. */
  static final int READINGS = 8;

  /** How often a tone is begun at most: after damage on the link, or at a lower level. */
  private static final int STARTS = 4;

  private static final double LOWER_BY = 0.7;

  /** What is left out first: a tenth of a box's slowest ring, and three periods. */
  private static final double SETTLE_SECONDS = 0.2;

  private static final int SETTLE_PERIODS = 3;

  /** Two readings agree within this many standard uncertainties of their difference. */
  private static final double AGREE_DEVIATIONS = 3;

  /**
   * Less than this part of the impedance is no change that matters: a fifth of the 1 % that is
   * aimed at. Hum close to a tone and the converter's steps, which are not noise, make about 0.1 %.
   * What the readings differ by goes into the uncertainty.
   */
  private static final double AGREE_FRACTION = 2e-3;

  /** What a tone gave: the reading, and the record and estimate that it rests on. */
  record Held(
      ToneReading reading, Optional<Capture> capture, Optional<ImpedanceEstimate> estimate) {}

  private final JigClient client;
  private final Tracker tracker;
  private final ScheduledTone tone;
  private int level;
  private int repeats;

  SettledTone(JigClient client, Tracker tracker, ScheduledTone tone, int level) {
    this.client = client;
    this.tracker = tracker;
    this.tone = tone;
    this.level = level;
  }

  /** How often the link made this tone be begun again. */
  int repeats() {
    return repeats;
  }

  Held hold() throws JigFaultException {
    for (int start = 1; ; start++) {
      try {
        Optional<Held> held = settle();
        if (held.isPresent()) {
          return held.get();
        }
        if (start == STARTS) {
          return none("the converter's range was passed even at drive level " + level);
        }
        level = Math.max(1, (int) (level * LOWER_BY));
      } catch (JigFaultException failed) {
        if (!failed.fault().isPassing() || start == STARTS) {
          throw failed;
        }
        repeats++;
        client.stop();
      }
    }
  }

  /** Empty when the range was passed. */
  private Optional<Held> settle() throws JigFaultException {
    client.play(new Wave.Tone(tone.step(), level));
    Optional<ImpedancePoint> before = Optional.empty();
    String because = "";
    for (int reading = 0; reading < READINGS; reading++) {
      if (tracker.wantsToStop()) {
        throw new JigFaultException(new JigFault.Cancelled());
      }
      Recording recording = client.record(order(reading == 0), tracker.record());
      if (recording.touchedRail()) {
        return Optional.empty();
      }
      Outcome<ImpedanceEstimate> outcome =
          ImpedanceEstimator.estimate(recording.capture(), tone.frequencyHz());
      if (!(outcome instanceof Outcome.Found<ImpedanceEstimate> found)) {
        return Optional.of(none(((Outcome.NoResult<ImpedanceEstimate>) outcome).because()));
      }
      ImpedancePoint point = found.value().curve().points().get(0);
      if (Bursts.hit(outcome)) {
        because = "something hit the last of its records";
        before = Optional.empty();
      } else if (before.isPresent() && agree(before.get(), point)) {
        return Optional.of(
            new Held(
                reading(Outcome.found(withChange(before.get(), point))),
                Optional.of(recording.capture()),
                Optional.of(found.value())));
      } else {
        because = changed(before, point);
        before = Optional.of(point);
      }
    }
    return Optional.of(none("it did not settle in " + READINGS + " readings: " + because));
  }

  private RecordOrder order(boolean first) {
    if (!first) {
      return RecordOrder.raw(tone.frames(), 0);
    }
    double frameSeconds = 2 * client.identity().tickSeconds();
    double seconds = Math.max(SETTLE_SECONDS, SETTLE_PERIODS / tone.frequencyHz());
    return RecordOrder.raw(tone.frames(), (int) Math.ceil(seconds / frameSeconds));
  }

  static boolean agree(ImpedancePoint one, ImpedancePoint other) {
    double u = Math.hypot(uncertainty(one), uncertainty(other));
    double limit = Math.max(AGREE_DEVIATIONS * u, AGREE_FRACTION * other.modulusOhm());
    return difference(one, other) <= limit;
  }

  /** A reading that half of its change since the one before may still be missing from. */
  private static ImpedancePoint withChange(ImpedancePoint before, ImpedancePoint now) {
    ImpedanceUncertainty change = ImpedanceUncertainty.circular(difference(before, now) / 2);
    return new ImpedancePoint(
        now.frequencyHz(),
        now.resistanceOhm(),
        now.reactanceOhm(),
        Optional.of(now.uncertainty().map(change::plus).orElse(change)));
  }

  private static double difference(ImpedancePoint one, ImpedancePoint other) {
    return Math.hypot(
        one.resistanceOhm() - other.resistanceOhm(), one.reactanceOhm() - other.reactanceOhm());
  }

  private static double uncertainty(ImpedancePoint point) {
    return point.uncertainty().map(ImpedanceUncertainty::standardUncertaintyOhm).orElse(0.0);
  }

  private static String changed(Optional<ImpedancePoint> before, ImpedancePoint point) {
    return before
        .map(
            old ->
                String.format(
                    Locale.ROOT,
                    "the last two differ by %.3g ohm at %.4g ohm",
                    difference(old, point),
                    point.modulusOhm()))
        .orElse("no two in a row could be compared");
  }

  private Held none(String because) {
    return new Held(reading(Outcome.none(because)), Optional.empty(), Optional.empty());
  }

  private ToneReading reading(Outcome<ImpedancePoint> read) {
    return new ToneReading(tone.step(), tone.frequencyHz(), read);
  }
}
