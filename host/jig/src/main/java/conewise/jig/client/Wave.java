package conewise.jig.client;

import conewise.protocol.Request;
import conewise.protocol.Requests;

/** What a jig may be asked to play. Levels are in drive steps around mid-scale. */
public sealed interface Wave {

  /** The name that {@code status} gives it. */
  String wireName();

  /** What the 32-bit phase gains each tick. */
  long step();

  /** The {@code play} that starts it, with tag 0. */
  Request request();

  /**
   * A sine.
   *
   * @param step what the 32-bit phase gains each tick, 0 to 2147483647
   * @param level the peak
   */
  record Tone(long step, int level) implements Wave {
    @Override
    public String wireName() {
      return "tone";
    }

    @Override
    public Request request() {
      return Requests.playTone(step, level, 0);
    }
  }

  /**
   * The table that was loaded.
   *
   * @param points how many of its points make a period, a power of two
   * @param step what the 32-bit phase gains each tick
   * @param level the peak that a point of 127 stands for
   * @param checksum CRC-16/X-25 of the points, so that a jig refuses to play another table
   */
  record Table(int points, long step, int level, int checksum) implements Wave {
    @Override
    public String wireName() {
      return "table";
    }

    @Override
    public Request request() {
      return Requests.playTable(points, step, level, 0, checksum);
    }
  }

  /**
   * A steady level.
   *
   * @param dc drive steps from mid-scale, either sign
   */
  record Steady(int dc) implements Wave {
    @Override
    public String wireName() {
      return "dc";
    }

    @Override
    public long step() {
      return 0;
    }

    @Override
    public Request request() {
      return Requests.playDc(dc);
    }
  }
}
