package conewise.protocol;

import java.math.BigInteger;
import java.util.List;
import java.util.Optional;

/**
 * All that a jig says about itself: the parsed answer of {@code identify}. Immutable; every part is
 * validated, and a wrong one throws an {@link IllegalArgumentException} whose message has the value
 * and the limit.
 *
 * @param jig names and versions
 * @param clock what a tick is
 * @param converter the codes
 * @param channels two or three, numbered from 0
 * @param drive the wave output
 * @param wave the table
 * @param record limits of {@code record}
 * @param link the byte stream
 * @param fitted the optional parts
 */
public record JigIdentity(
    Jig jig,
    Clock clock,
    Converter converter,
    List<Channel> channels,
    Drive drive,
    Wave wave,
    RecordLimits record,
    Link link,
    Fitted fitted) {
  /** The version of the protocol that this package speaks. */
  public static final int PROTOCOL = 1;

  private static final BigInteger PERIOD = BigInteger.ONE.shiftLeft(32);

  /** An identity. */
  public JigIdentity {
    channels = List.copyOf(channels);
    IdentityLimits.whole("the number of channels", channels.size(), 2, 3);
    for (int i = 0; i < channels.size(); i++) {
      IdentityLimits.whole("number of channel line " + (i + 1), channels.get(i).number(), i, i);
      IdentityLimits.decimal(
          "offset_code of channel " + i,
          channels.get(i).offsetCode(),
          -converter.codes(),
          2.0 * converter.codes());
    }
    IdentityLimits.whole("channels_max", record.channelsMax(), 2, channels.size());
    IdentityLimits.whole(
        "decimate_max x (codes - 1)",
        (long) record.decimateMax() * (converter.codes() - 1),
        1,
        RecordShape.SUM_MAX);
  }

  /**
   * Names and versions.
   *
   * @param firmware version of the firmware
   * @param board name of the board
   * @param serial the jig's stored serial, empty if none is stored
   * @param calibration id of its calibration, empty if none is stored
   */
  public record Jig(
      String firmware, String board, Optional<String> serial, Optional<String> calibration) {
    /** Names and versions. */
    public Jig {
      IdentityLimits.word("firmware", firmware);
      IdentityLimits.word("board", board);
      serial.ifPresent(id -> IdentityLimits.id("serial", id));
      calibration.ifPresent(id -> IdentityLimits.id("calibration", id));
    }
  }

  /**
   * What a tick is: {@code tickCycles / clockHz} seconds.
   *
   * @param clockHz 1000 to 1 000 000 000
   * @param tickCycles 1 to 1 000 000
   */
  public record Clock(long clockHz, int tickCycles) {
    /** A clock. */
    public Clock {
      IdentityLimits.whole("clock_hz", clockHz, 1_000, 1_000_000_000);
      IdentityLimits.whole("tick_cycles", tickCycles, 1, 1_000_000);
      IdentityLimits.decimal(
          "clock_hz / tick_cycles", (double) clockHz / tickCycles, 100, 10_000_000);
    }
  }

  /**
   * The codes, from 0 to {@code codes - 1}.
   *
   * @param bits 6 to 12, which two digits of a block carry
   * @param codes 2 to 2^bits
   */
  public record Converter(int bits, int codes) {
    /** A converter. */
    public Converter {
      IdentityLimits.whole("bits", bits, 6, 12);
      IdentityLimits.whole("codes", codes, 2, 1L << bits);
    }
  }

  /**
   * One channel: unit = (code - offsetCode) x perCode.
   *
   * @param number 0 the voltage at the terminals, 1 the current into them, 2 an optional input
   * @param name a word
   * @param unit V for channel 0, A for channel 1, a word for channel 2
   * @param offsetCode the code at zero
   * @param perCode units a code, nominal; negative where the path inverts, never 0
   * @param delayNanoseconds from the frame's instant to this channel's sample
   */
  public record Channel(
      int number,
      String name,
      String unit,
      double offsetCode,
      double perCode,
      double delayNanoseconds) {
    /** A channel. */
    public Channel {
      IdentityLimits.whole("number", number, 0, 2);
      IdentityLimits.word("name", name);
      IdentityLimits.word("unit", unit);
      String needed = number == 0 ? "V" : number == 1 ? "A" : unit;
      if (!unit.equals(needed)) {
        throw new IllegalArgumentException(
            "unit of channel " + number + " is " + unit + ", but must be " + needed);
      }
      IdentityLimits.decimal("size of per_code of channel " + number, Math.abs(perCode), 1e-9, 1e6);
      IdentityLimits.decimal("delay_ns of channel " + number, delayNanoseconds, -1e9, 1e9);
      IdentityLimits.decimal("offset_code of channel " + number, offsetCode, -1e6, 1e6);
    }

    /** From the frame's instant to this channel's sample. */
    public double delaySeconds() {
      return delayNanoseconds * 1e-9;
    }
  }

  /**
   * The wave output.
   *
   * @param levelMax the largest peak in drive steps, 1 to 1 000 000
   * @param voltPerLevel volt a step at the bridge without load, nominal, above 0
   * @param sourceOhm the sense resistor, above 0
   */
  public record Drive(int levelMax, double voltPerLevel, double sourceOhm) {
    /** A drive. */
    public Drive {
      IdentityLimits.whole("level_max", levelMax, 1, 1_000_000);
      IdentityLimits.decimal("volt_per_level", voltPerLevel, 1e-9, 100);
      IdentityLimits.decimal("source_ohm", sourceOhm, 1e-3, 1e6);
    }
  }

  /**
   * The wave table.
   *
   * @param pointsMax the most points, 16 to 65536
   * @param pointBits bits a point, 8 in version 1
   */
  public record Wave(int pointsMax, int pointBits) {
    /** A table. */
    public Wave {
      IdentityLimits.whole("points_max", pointsMax, 16, 65_536);
      IdentityLimits.whole("point_bits", pointBits, 8, 8);
    }
  }

  /**
   * Limits of {@code record}.
   *
   * @param channelsMax 2 or 3, not above the number of channels
   * @param framesMax the most frames of a record, 1 to 2 147 483 647
   * @param skipMax the most frames left out first, 0 to 2 147 483 647
   * @param decimateMax the most frames a sum, a power of two
   */
  public record RecordLimits(int channelsMax, int framesMax, int skipMax, int decimateMax) {
    /** Limits. */
    public RecordLimits {
      IdentityLimits.whole("channels_max", channelsMax, 2, 3);
      IdentityLimits.whole("frames_max", framesMax, 1, Integer.MAX_VALUE);
      IdentityLimits.whole("skip_max", skipMax, 0, Integer.MAX_VALUE);
      IdentityLimits.whole("decimate_max", decimateMax, 1, 32_768);
      if (Integer.bitCount(decimateMax) != 1) {
        throw new IllegalArgumentException(
            "decimate_max is " + decimateMax + ", but must be a power of two");
      }
    }
  }

  /**
   * The byte stream.
   *
   * @param baud bits a second, ten to a character, 300 to 100 000 000; nominal where the link has
   *     none
   * @param requestMax the most characters of a request, 96 to 120
   * @param lineMax the most characters of a line from the jig, 144 to 160
   * @param silenceMilliseconds how long a wave or record lasts without a valid request, 100 to 60
   *     000
   */
  public record Link(int baud, int requestMax, int lineMax, int silenceMilliseconds) {
    /** A link. */
    public Link {
      IdentityLimits.whole("baud", baud, 300, 100_000_000);
      IdentityLimits.whole("request_max", requestMax, 96, LineReader.REQUEST_MAX);
      IdentityLimits.whole("line_max", lineMax, 144, LineReader.JIG_LINE_MAX);
      IdentityLimits.whole("silence_ms", silenceMilliseconds, 100, 60_000);
    }
  }

  /**
   * The optional parts.
   *
   * @param foot a foot switch
   * @param lamps lamps for pass, fail and busy
   * @param buzzer a buzzer
   */
  public record Fitted(boolean foot, boolean lamps, boolean buzzer) {}

  /**
   * The identity in the details of an {@code identify}.
   *
   * @param details all details of the answer, in the order received; unknown topics are skipped
   * @throws IdentityProblem if the version is another, or a topic or field is absent, twice, of the
   *     wrong form or absurd
   */
  public static JigIdentity fromDetails(List<Detail> details) {
    return new IdentityReader(details).read();
  }

  /**
   * The inverse of {@link #fromDetails}: what a jig answers before {@code ok}, in the order of the
   * specification.
   */
  public List<Detail> toDetails(int tag) {
    return IdentityWriter.details(this, tag);
  }

  /** Seconds a tick. */
  public double tickSeconds() {
    return clock.tickCycles() / (double) clock.clockHz();
  }

  /** Ticks a second. */
  public double tickRateHz() {
    return clock.clockHz() / (double) clock.tickCycles();
  }

  /**
   * The repetition rate of a wave whose phase gains {@code step} (0 to 2^31 - 1) of 2^32 each tick.
   */
  public double frequencyHz(long step) {
    return step * tickRateHz() / PERIOD.doubleValue();
  }

  /**
   * The step that a jig turns millihertz into: millihertz x 2^32 x tick_cycles / (clock_hz x 1000),
   * half up.
   *
   * @param millihertz 0 or more
   * @return 0 or more; above 2147483647 a jig refuses it
   */
  public long stepFor(long millihertz) {
    BigInteger twice =
        BigInteger.valueOf(millihertz)
            .multiply(PERIOD)
            .multiply(BigInteger.valueOf(2L * clock.tickCycles()));
    BigInteger divisor = BigInteger.valueOf(clock.clockHz() * 1000);
    return twice.add(divisor).divide(divisor.shiftLeft(1)).longValueExact();
  }
}
