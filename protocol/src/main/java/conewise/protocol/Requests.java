package conewise.protocol;

import java.util.Locale;

/**
 * Requests that follow the grammar, all with tag 0 (see {@link Request#withTag}). Limits of a
 * certain jig are not looked at here: {@link CommandParser} does that.
 */
public final class Requests {
  private Requests() {}

  /** Describe the jig. */
  public static Request identify() {
    return request(Verb.IDENTIFY, Fields.NONE);
  }

  /**
   * Write wave points.
   *
   * @param at index of the first
   * @param points 1 to {@link WavePoints#LOAD_MAX} points, -127 to 127
   * @throws IllegalArgumentException for another number of points
   */
  public static Request load(int at, byte[] points) {
    if (points.length < 1 || points.length > WavePoints.LOAD_MAX) {
      throw new IllegalArgumentException(
          "a load takes 1 to " + WavePoints.LOAD_MAX + " points, not " + points.length);
    }
    return request(Verb.LOAD, Fields.NONE.with("at", at).with("data", WavePoints.encode(points)));
  }

  /**
   * Play a sine.
   *
   * @param step what the phase gains each tick, of 2^32
   * @param level peak in drive steps
   * @param dc offset in drive steps
   */
  public static Request playTone(long step, int level, int dc) {
    return request(
        Verb.PLAY,
        Fields.of("wave", "tone").with("step", step).with("level", level).with("dc", dc));
  }

  /**
   * Play the loaded table.
   *
   * @param points how many of it are one period, a power of two
   * @param step what the phase gains each tick, of 2^32
   * @param level peak in drive steps
   * @param dc offset in drive steps
   * @param crc the checksum of these points, from {@link WavePoints#checksum}
   */
  public static Request playTable(int points, long step, int level, int dc, int crc) {
    Fields fields =
        Fields.of("wave", "table").with("points", points).with("step", step).with("level", level);
    return request(Verb.PLAY, fields.with("dc", dc).with("crc", Checksum.hex(crc)));
  }

  /** Hold a level of {@code dc} drive steps. */
  public static Request playDc(int dc) {
    return request(Verb.PLAY, Fields.of("wave", "dc").with("dc", dc));
  }

  /** Bound the peak of waves, in drive steps. */
  public static Request limit(int peak) {
    return request(Verb.LIMIT, Fields.NONE.with("peak", peak));
  }

  /** Record {@code frames} after leaving out {@code skip}. */
  public static Request record(RecordShape shape, int frames, int skip) {
    Fields fields = Fields.NONE.with("channels", shape.channels()).with("frames", frames);
    return request(Verb.RECORD, fields.with("skip", skip).with("decimate", shape.decimate()));
  }

  /** End wave and record. */
  public static Request stop() {
    return request(Verb.STOP, Fields.NONE);
  }

  /** A lamp of the fixture. */
  public enum Lamp {
    /** The box passed. */
    PASS,
    /** The box failed. */
    FAIL,
    /** A measurement runs, or the jig halted. */
    BUSY
  }

  /** What a lamp does. */
  public enum LampState {
    /** Lit. */
    ON,
    /** Dark. */
    OFF,
    /** In turn. */
    BLINK
  }

  /** Set a lamp. */
  public static Request lamp(Lamp lamp, LampState state) {
    return request(Verb.LAMP, Fields.of("name", word(lamp), "state", word(state)));
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }

  /** Sound the buzzer for 1 to 2000 ms. */
  public static Request buzz(int milliseconds) {
    return request(Verb.BUZZ, Fields.NONE.with("milliseconds", milliseconds));
  }

  /** Keep a serial; {@code none} clears it. */
  public static Request storeSerial(String id) {
    return request(Verb.STORE, Fields.of("serial", id));
  }

  /** Keep a calibration id; {@code none} clears it. */
  public static Request storeCalibration(String id) {
    return request(Verb.STORE, Fields.of("calibration", id));
  }

  /** Ask for state and counters. */
  public static Request status() {
    return request(Verb.STATUS, Fields.NONE);
  }

  private static Request request(Verb verb, Fields fields) {
    return new Request(0, verb.wireName(), fields);
  }
}
