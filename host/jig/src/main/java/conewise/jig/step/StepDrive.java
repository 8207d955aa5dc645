package conewise.jig.step;

import conewise.analysis.polarity.FirstHalfCycle;
import conewise.analysis.polarity.HeardSteps;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFault;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.RecordProgress;
import conewise.jig.client.Recording;
import conewise.protocol.JigIdentity;
import java.util.Optional;

/**
 * Drives steps of + into the terminal marked + and records what comes of them. A step lasts 0.3 s
 * and is followed by 0.45 s of rest.
 *
 * <p>Bounds: the wave itself ends each step, so that no step is longer whatever becomes of the
 * host; the jig halts when no request came for its {@code silence_ms}, so that a host that dies
 * leaves at most two or three more steps; the level is the jig's own limit at most (0.8 V behind 10
 * ohm on the board of this project, 80 mA into a short).
 */
public final class StepDrive {

  /** How many steps make sure of a sign in a usual room. */
  public static final int HEARD_STEPS = 4;

  private static final double LISTEN_SECONDS = 0.25;
  private static final int ATTEMPTS = 3;
  private static final int LOWER_BY = 2;

  private final JigClient client;
  private final RecordProgress progress;

  /**
   * Steps on a jig.
   *
   * @param progress follows each record and may give it up
   */
  public StepDrive(JigClient client, RecordProgress progress) {
    this.client = client;
    this.progress = progress;
  }

  /** True when the jig has the optional input that a microphone needs. */
  public static boolean hasMicrophoneChannel(JigIdentity jig) {
    return jig.channels().size() > 2 && jig.record().channelsMax() > 2;
  }

  /** The largest voltage at the bridge, without load. */
  public static double fullVolt(JigIdentity jig) {
    return jig.drive().levelMax() * jig.drive().voltPerLevel();
  }

  /**
   * One step, for eyes. The drive is off afterwards. About a second.
   *
   * @throws JigFaultException when the jig does not do what is asked, after repeats
   */
  public StepRecord once() throws JigFaultException {
    Recording recording = record(2, 1, client.identity().drive().levelMax());
    return new StepRecord(
        recording.capture(), Optional.empty(), client.identity().drive().levelMax());
  }

  /**
   * Several steps with the third channel recorded; where it stands at the end of its range again
   * with half the level, and once more. The drive is off afterwards. About 3 s, 9 s at most.
   *
   * @throws JigFaultException when the jig does not do what is asked, after repeats; {@link
   *     JigFault.Unsuited} when it has no third channel
   */
  public StepRecord heard() throws JigFaultException {
    JigIdentity jig = client.identity();
    if (!hasMicrophoneChannel(jig)) {
      throw new JigFaultException(
          new JigFault.Unsuited(
              "The jig has " + jig.channels().size() + " channels; a microphone needs a third.",
              "Use a jig with the optional input, or a battery for the pop test."));
    }
    int level = jig.drive().levelMax();
    for (int attempt = 1; attempt < ATTEMPTS && level >= LOWER_BY; attempt++) {
      Optional<Recording> whole = whole(level);
      if (whole.isPresent()) {
        return record(whole.get(), level);
      }
      level /= LOWER_BY;
    }
    return record(record(3, HEARD_STEPS, level), level);
  }

  /**
   * Listens to the third channel without any drive. About 0.3 s.
   *
   * @return true when there is one and more moves on it than a converter's own noise
   * @throws JigFaultException when the jig does not do what is asked
   */
  public boolean microphoneIsThere() throws JigFaultException {
    JigIdentity jig = client.identity();
    if (!hasMicrophoneChannel(jig)) {
      return false;
    }
    int frames = (int) Math.ceil(LISTEN_SECONDS / (3 * jig.tickSeconds()));
    client.stop();
    Recording idle = client.record(new RecordOrder(3, frames, 0, 1), progress);
    return idle.highCodes().get(2) - idle.lowCodes().get(2) > FirstHalfCycle.STILL_CODES;
  }

  private StepRecord record(Recording recording, int level) {
    double pascalPerCode = Math.abs(client.identity().channels().get(2).perCode());
    HeardSteps heard =
        new HeardSteps(recording.capture(), recording.third().orElseThrow(), pascalPerCode);
    return new StepRecord(recording.capture(), Optional.of(heard), level);
  }

  /** A record whose third channel stays within its range; a jig that it halts is not at fault. */
  private Optional<Recording> whole(int level) throws JigFaultException {
    try {
      Recording recording = record(3, HEARD_STEPS, level);
      boolean within =
          recording.lowCodes().get(2) > 0 && recording.highCodes().get(2) < recording.codes() - 1;
      return within ? Optional.of(recording) : Optional.empty();
    } catch (JigFaultException failed) {
      if (failed.fault().equals(new JigFault.Halted("clipping"))) {
        return Optional.empty();
      }
      throw failed;
    }
  }

  private Recording record(int channels, int steps, int level) throws JigFaultException {
    for (int attempt = 1; ; attempt++) {
      try {
        return once(channels, steps, level);
      } catch (JigFaultException failed) {
        if (!failed.fault().isPassing() || attempt == ATTEMPTS) {
          silence(failed);
          throw failed;
        }
      }
    }
  }

  private Recording once(int channels, int steps, int level) throws JigFaultException {
    JigIdentity jig = client.identity();
    double frameSeconds = channels * jig.tickSeconds();
    int frames = (int) Math.ceil(steps * StepWave.PERIOD_SECONDS / frameSeconds);
    byte[] table = StepWave.table(jig);
    client.stop();
    client.load(table);
    client.play(StepWave.wave(jig, table, level));
    Recording recording = client.record(new RecordOrder(channels, frames, 0, 1), progress);
    client.stop();
    return recording;
  }

  /** What stands in the way of silence is told with what went wrong before. */
  private void silence(JigFaultException failed) {
    try {
      client.stop();
    } catch (JigFaultException gone) {
      // The jig then falls silent by itself; see the bounds above.
      failed.addSuppressed(gone);
    }
  }
}
