package conewise.station.shift;

import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.sweep.Calibration;
import conewise.station.answer.CommandFailure;
import conewise.station.fixture.FixtureJig;
import conewise.station.shift.BenchState.JigLine;
import java.time.Clock;
import java.time.ZonedDateTime;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * Keeps the line to a jig: asks it now and then, lets go of one that no longer answers, and looks
 * for it again. Used by the bench's own thread alone.
 */
final class JigKeeper implements AutoCloseable {
  private static final long BETWEEN_TRIES_NANOS = 2_000_000_000L;

  private final JigSource source;
  private final LongSupplier clock;
  private final Clock wall;
  private Optional<JigClient> client = Optional.empty();
  private JigLine line = new JigLine(false, "Looking for the jig.");
  private long meeting;
  private long lastTry;
  private boolean tried;
  private boolean footDown;

  JigKeeper(JigSource source, LongSupplier clock, Clock wall) {
    this.source = source;
    this.clock = clock;
    this.wall = wall;
  }

  JigLine line() {
    return line;
  }

  /** The jig, where it answers. */
  Optional<JigClient> client() {
    return client;
  }

  /**
   * Looks after the line.
   *
   * @return true where the foot switch went down since the last look
   */
  boolean look() {
    if (client.isEmpty()) {
      connect();
      return false;
    }
    try {
      boolean was = footDown;
      footDown = client.get().status().footDown();
      return footDown && !was;
    } catch (JigFaultException gone) {
      lost(gone.fault().sentence() + " " + gone.fault().nextStep());
      return false;
    }
  }

  private void connect() {
    long now = clock.getAsLong();
    if (tried && now - lastTry < BETWEEN_TRIES_NANOS) {
      return;
    }
    tried = true;
    try {
      client = Optional.of(source.connect());
      meeting++;
      line = new JigLine(true, words(client.get()) + due(client.get()));
      footDown = false;
    } catch (CommandFailure none) {
      line = new JigLine(false, none.getMessage());
    }
    lastTry = clock.getAsLong();
  }

  /** The jig and its calibration, as a fixture's artefacts know them; none while it is away. */
  Optional<FixtureJig> atBench() {
    try {
      return client.isEmpty()
          ? Optional.empty()
          : Optional.of(
              as(
                  client.get(),
                  source.calibrated(client.get().identity(), ZonedDateTime.now(wall))));
    } catch (CommandFailure foreign) {
      return Optional.empty();
    }
  }

  /** The jig that is met now, as it is read by a calibration. */
  FixtureJig as(JigClient met, JigSource.Calibrated by) {
    return new FixtureJig(
        met.identity().jig().serial(), meeting, by.settings().calibration().map(Calibration::id));
  }

  /** That its calibration falls due soon; what is wrong with it is said by the sweep. */
  private String due(JigClient jig) {
    try {
      return source
          .calibrated(jig.identity(), ZonedDateTime.now(wall))
          .due()
          .map(sentence -> ". " + sentence)
          .orElse("");
    } catch (CommandFailure foreign) {
      return "";
    }
  }

  private static String words(JigClient jig) {
    return jig.identity().jig().serial().map(serial -> "Jig " + serial).orElse("Jig without number")
        + " on "
        + jig.linkName();
  }

  /** The jig has gone; it is looked for from now on. */
  void lost(String sentence) {
    letGo();
    line = new JigLine(false, sentence);
    lastTry = clock.getAsLong();
  }

  /** Lets go of the jig, so that it is met afresh. */
  void letGo() {
    client.ifPresent(JigClient::close);
    client = Optional.empty();
    tried = false;
  }

  @Override
  public void close() {
    client.ifPresent(JigClient::close);
    client = Optional.empty();
  }
}
