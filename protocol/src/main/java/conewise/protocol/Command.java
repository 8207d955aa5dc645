package conewise.protocol;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * A request whose values have been looked at: what a jig has to do. Comes from a {@link
 * CommandParser}.
 */
public sealed interface Command {
  /** Describe the jig. */
  record Identify() implements Command {}

  /**
   * Write points of the wave table.
   *
   * @param at index of the first
   * @param data their base64, 1 to 48 points
   */
  record Load(int at, String data) implements Command {
    /** The points, -127 to 127. */
    public byte[] points() {
      return WavePoints.decode("data", data);
    }
  }

  /** Start a wave. */
  sealed interface Play extends Command {
    /** What the phase gains each tick, 0 to 2147483647 of 2^32. */
    long step();

    /** The peak in drive steps. */
    int level();

    /** The offset in drive steps. */
    int dc();

    /** What the limit bounds: level + |dc|. */
    default int peak() {
      return level() + Math.abs(dc());
    }
  }

  /**
   * Play a sine.
   *
   * @param step what the phase gains each tick
   * @param level peak in drive steps
   * @param dc offset in drive steps
   */
  record PlayTone(long step, int level, int dc) implements Play {}

  /**
   * Play the loaded table.
   *
   * @param points how many of it are one period, a power of two
   * @param step what the phase gains each tick
   * @param level peak in drive steps
   * @param dc offset in drive steps
   * @param crc the checksum that these points must have, where one is given
   */
  record PlayTable(int points, long step, int level, int dc, OptionalInt crc) implements Play {}

  /**
   * Hold a level.
   *
   * @param dc offset in drive steps
   */
  record PlayDc(int dc) implements Play {
    @Override
    public long step() {
      return 0;
    }

    @Override
    public int level() {
      return 0;
    }
  }

  /**
   * Bound the peak of waves.
   *
   * @param peak the highest level + |dc|
   */
  record Limit(int peak) implements Command {}

  /**
   * Record channels.
   *
   * @param shape channels and decimation
   * @param frames how many are sent
   * @param skip how many are left out first
   */
  record RecordFrames(RecordShape shape, int frames, int skip) implements Command {}

  /** End wave and record. */
  record Stop() implements Command {}

  /**
   * Set a lamp.
   *
   * @param name pass, fail or busy
   * @param state on, off or blink
   */
  record Lamp(String name, String state) implements Command {}

  /**
   * Sound the buzzer.
   *
   * @param milliseconds 1 to 2000
   */
  record Buzz(int milliseconds) implements Command {}

  /**
   * Keep an id without power.
   *
   * @param key serial or calibration
   * @param id the id; empty clears it
   */
  record Store(String key, Optional<String> id) implements Command {}

  /** Ask for state and counters. */
  record Status() implements Command {}
}
