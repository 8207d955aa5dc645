package conewise.jig.client;

import conewise.protocol.Accepted;
import conewise.protocol.JigIdentity;
import conewise.protocol.JigStatus;
import conewise.protocol.Message;
import conewise.protocol.PlayStart;
import conewise.protocol.RecordStart;
import conewise.protocol.Refused;
import conewise.protocol.Request;
import conewise.protocol.Requests;
import conewise.protocol.Requests.Lamp;
import conewise.protocol.Requests.LampState;
import conewise.protocol.WavePoints;
import conewise.protocol.link.ByteLink;
import java.time.Duration;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/**
 * A jig that has answered {@code identify}. Each call returns within a bounded time by the link's
 * clock, with what was asked for or with a {@link JigFaultException}. Requests that do no harm when
 * sent twice ({@code stop}, {@code status}, {@code lamp}) are repeated when they or their answers
 * are damaged; {@code load}, {@code play} and {@code record} never are, since it cannot be known
 * whether they were obeyed: whoever asked stops and starts over.
 *
 * <p>Used by one thread at a time.
 */
public final class JigClient implements AutoCloseable {

  /** How often a harmless request is sent at most. */
  static final int ATTEMPTS = 3;

  /**
   * The protocol's 50 ms to begin an answer, and what systems add: a USB bridge holds bytes back up
   * to 16 ms, a busy desktop may not run this program for a few tenths of a second.
   */
  static final Duration ANSWER_LIMIT = Duration.ofMillis(400);

  private static final int TAG_FIRST = 100;
  private static final int TAG_LAST = 9999;

  private final Conversation conversation;
  private final JigIdentity identity;
  private int tag = TAG_FIRST - 1;
  private long repeated;
  private long stray;
  private Optional<Playing> playing = Optional.empty();

  /** What plays: its name in {@code status}, its tick of phase zero, halts counted before it. */
  record Playing(String wave, long tick, long haltsBefore) {}

  private JigClient(Conversation conversation, JigIdentity identity) {
    this.conversation = conversation;
    this.identity = identity;
  }

  /**
   * Meets the jig on a link and stops whatever it is doing. Takes ownership of the link: when this
   * fails, the link is closed.
   *
   * @param listener hears what the jig says unasked
   * @throws JigFaultException when no jig answers within 5 s by the link's clock, something else is
   *     there, or the jig speaks another version of the protocol
   */
  public static JigClient connect(ByteLink link, JigListener listener) throws JigFaultException {
    Conversation conversation = new Conversation(link, listener);
    boolean met = false;
    try {
      Greeting greeting = new Greeting(conversation);
      JigClient client = new JigClient(conversation, greeting.meet());
      client.repeated = greeting.attempts() - 1L;
      conversation.establish();
      client.stop();
      met = true;
      return client;
    } finally {
      if (!met) {
        conversation.close();
      }
    }
  }

  /** What the jig says about itself. */
  public JigIdentity identity() {
    return identity;
  }

  /** The name of the link that this jig is on. */
  public String linkName() {
    return conversation.linkName();
  }

  /** The link's clock, in nanoseconds from an arbitrary start. */
  public long nanoTime() {
    return conversation.now();
  }

  /** How the link has behaved so far. */
  public LinkHealth health() {
    return new LinkHealth(conversation.bytesHeard(), conversation.unusableLines(), repeated, stray);
  }

  /** Ends wave and record; the drive goes to mid-scale. */
  public void stop() throws JigFaultException {
    playing = Optional.empty();
    askUntilAnswered(Requests.stop());
  }

  /** What the jig is doing, and its counters. */
  public JigStatus status() throws JigFaultException {
    return read("status", askUntilAnswered(Requests.status()), JigStatus::from);
  }

  /**
   * Sets a lamp. Refused as {@code not-fitted} by a jig that has none; see {@link
   * JigIdentity#fitted()}.
   */
  public void lamp(Lamp lamp, LampState state) throws JigFaultException {
    askUntilAnswered(Requests.lamp(lamp, state));
  }

  /**
   * Sounds the buzzer.
   *
   * @param milliseconds 1 to 2000
   */
  public void buzz(int milliseconds) throws JigFaultException {
    ask(Requests.buzz(milliseconds));
  }

  /**
   * Bounds what may be played.
   *
   * @param peak the highest level + |dc| that the jig takes from now on, in drive steps
   */
  public void limit(int peak) throws JigFaultException {
    askUntilAnswered(Requests.limit(peak));
  }

  /**
   * Keeps a serial in the jig, where it outlasts a loss of power.
   *
   * @param id 1 to 16 letters, digits or hyphens; "none" clears it
   */
  public void storeSerial(String id) throws JigFaultException {
    ask(Requests.storeSerial(id));
  }

  /**
   * Keeps the name of a calibration in the jig, where it outlasts a loss of power.
   *
   * @param id 1 to 16 letters, digits or hyphens; "none" clears it
   */
  public void storeCalibration(String id) throws JigFaultException {
    ask(Requests.storeCalibration(id));
  }

  /**
   * Writes a wave into the jig's table from its first point on. Nothing may be playing.
   *
   * @param points signed 8-bit points, at most the jig's {@code points_max}
   */
  public void load(byte[] points) throws JigFaultException {
    for (int at = 0; at < points.length; at += WavePoints.LOAD_MAX) {
      int end = Math.min(points.length, at + WavePoints.LOAD_MAX);
      ask(Requests.load(at, Arrays.copyOfRange(points, at, end)));
    }
  }

  /** Starts a wave at phase zero; one that plays already is replaced. */
  public void play(Wave wave) throws JigFaultException {
    long halts = status().halts();
    PlayStart start = read("play", ask(wave.request()), PlayStart::from);
    if (start.step() != wave.step()) {
      throw new JigFaultException(
          new JigFault.AbsurdAnswer(
              "play", "It plays step " + start.step() + " instead of " + wave.step() + "."));
    }
    playing = Optional.of(new Playing(wave.wireName(), start.tick(), halts));
  }

  /**
   * Records, with or without a wave, and waits until the record is in.
   *
   * @param progress follows the record and may give it up
   * @return the whole record, without a gap
   * @throws JigFaultException when it did not come in whole, or the wave did not play through it
   */
  public Recording record(RecordOrder order, RecordProgress progress) throws JigFaultException {
    Request request = Requests.record(order.shape(), order.frames(), order.skip());
    RecordStart start = read("record", ask(request), RecordStart::from);
    requireFits(start, order);
    long origin = playing.map(Playing::tick).orElse(0L);
    Recording recording = new RecordRun(this, conversation, order, start, origin).follow(progress);
    if (playing.isPresent()) {
      requirePlayedThrough(playing.get());
    }
    return recording;
  }

  private static void requireFits(RecordStart start, RecordOrder order) throws JigFaultException {
    int frames = order.shape().blockFrames();
    int digits = order.shape().digits();
    if (start.blockFrames() != frames || start.digits() != digits) {
      throw new JigFaultException(
          new JigFault.AbsurdAnswer(
              "record",
              String.format(
                  Locale.ROOT,
                  "It gives blocks of %d frames of %d digits instead of %d of %d.",
                  start.blockFrames(),
                  start.digits(),
                  frames,
                  digits)));
    }
  }

  /** A halt whose own line was lost would otherwise leave a record of silence. */
  private void requirePlayedThrough(Playing wave) throws JigFaultException {
    JigStatus status = status();
    if (!status.wave().equals(wave.wave()) || status.halts() != wave.haltsBefore()) {
      throw new JigFaultException(new JigFault.Halted("unknown"));
    }
  }

  Request tagged(Request request) {
    tag = tag >= TAG_LAST ? TAG_FIRST : tag + 1;
    return request.withTag(tag);
  }

  /** Reads an answer; one with a field absent or wrong is a fault, not a programmer's mistake. */
  static <A, T> T read(String asked, A answer, Function<A, T> reading) throws JigFaultException {
    try {
      return reading.apply(answer);
    } catch (IllegalArgumentException problem) {
      throw new JigFaultException(new JigFault.AbsurdAnswer(asked, problem.getMessage()), problem);
    }
  }

  private Accepted askUntilAnswered(Request untagged) throws JigFaultException {
    for (int attempt = 1; ; attempt++) {
      try {
        return ask(untagged);
      } catch (JigFaultException failed) {
        boolean again =
            failed.fault() instanceof JigFault.NoAnswer
                || failed.fault() instanceof JigFault.DamagedExchange;
        if (!again || attempt == ATTEMPTS) {
          throw failed;
        }
        repeated++;
      }
    }
  }

  private Accepted ask(Request untagged) throws JigFaultException {
    Request request = tagged(untagged);
    String verb = request.verb();
    conversation.send(request);
    Duration limit = answerLimit();
    long deadline = conversation.now() + limit.toNanos();
    while (true) {
      Optional<Message> heard = conversation.next(deadline);
      if (heard.isEmpty()) {
        throw new JigFaultException(
            new JigFault.NoAnswer(linkName(), verb, limit.toMillis() / 1000.0));
      }
      if (heard.get() instanceof Accepted accepted) {
        if (accepted.tag() == request.tag()) {
          return requireChecked(verb, accepted);
        }
        stray++;
      } else if (heard.get() instanceof Refused refused) {
        requireStray(verb, request.tag(), refused);
      }
    }
  }

  private static Accepted requireChecked(String verb, Accepted accepted) throws JigFaultException {
    if (!accepted.checked()) {
      throw new JigFaultException(
          new JigFault.DamagedExchange(verb, "it reached the jig without its checksum."));
    }
    return accepted;
  }

  private void requireStray(String verb, int wanted, Refused refused) throws JigFaultException {
    boolean unchecked =
        refused.fields().has("checked") && refused.fields().text("checked").equals("no");
    if (refused.tag() == 0 || (refused.tag() == wanted && unchecked)) {
      String cause = refused.error().cause();
      throw new JigFaultException(
          new JigFault.DamagedExchange(
              verb, "the jig reports \"" + cause.toLowerCase(Locale.ROOT) + "\""));
    }
    if (refused.tag() == wanted) {
      throw new JigFaultException(
          new JigFault.RequestRefused(verb, refused.error(), refused.fields()));
    }
    stray++;
  }

  /** The answer may stand behind one block, and on a slow link lines take their time. */
  Duration answerLimit() {
    JigIdentity.Link link = identity.link();
    long characters = link.requestMax() + 2L * link.lineMax();
    return ANSWER_LIMIT.plusMillis(characters * 10 * 1000 / link.baud());
  }

  /** Stops the drive if the jig still answers, and lets go of the link. Never throws. */
  @Override
  public void close() {
    try {
      stop();
    } catch (JigFaultException gone) {
      // A jig that does not answer falls silent by itself: it halts when no request comes.
    } finally {
      conversation.close();
    }
  }
}
