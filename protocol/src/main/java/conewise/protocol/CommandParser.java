package conewise.protocol;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * Looks at the values of a request, in the order of the specification, within the limits that a jig
 * states of itself. What depends on the jig's state (busy, limit in force, table, link, parts
 * fitted) is left to the jig.
 */
public final class CommandParser {
  private static final long STEP_MAX = Integer.MAX_VALUE;
  private static final int MILLIHERTZ_MAX = 2_000_000;
  private static final int BUZZ_MAX_MILLISECONDS = 2_000;
  private static final int TABLE_MIN = 16;

  private final JigIdentity identity;

  /** A parser for the jig that says this of itself. */
  public CommandParser(JigIdentity identity) {
    this.identity = identity;
  }

  /**
   * The command of a request.
   *
   * @param request one that a {@link RequestParser} understood
   * @throws FieldProblem for the first field that is missing, of the wrong form, out of range, or
   *     not taken with the others; its error and details are the refusal to send
   */
  public Command parse(Request request) {
    Verb verb =
        Verb.find(request.verb())
            .orElseThrow(
                () -> new IllegalArgumentException("there is no command " + request.verb()));
    Fields fields = request.fields();
    return switch (verb) {
      case IDENTIFY -> new Command.Identify();
      case LOAD -> load(fields);
      case PLAY -> play(fields);
      case LIMIT -> new Command.Limit(fields.integer("peak", 0, levelMax()));
      case RECORD -> record(fields);
      case STOP -> new Command.Stop();
      case LAMP ->
          new Command.Lamp(
              fields.word("name", "pass", "fail", "busy"),
              fields.word("state", "on", "off", "blink"));
      case BUZZ -> new Command.Buzz(fields.integer("milliseconds", 1, BUZZ_MAX_MILLISECONDS));
      case STORE -> store(fields);
      case STATUS -> new Command.Status();
    };
  }

  private int levelMax() {
    return identity.drive().levelMax();
  }

  private Command load(Fields fields) {
    int pointsMax = identity.wave().pointsMax();
    int at = fields.integer("at", 0, pointsMax - 1);
    String data = fields.text("data");
    int count = WavePoints.decode("data", data).length;
    if (count > WavePoints.LOAD_MAX) {
      throw FieldProblem.outOfRange("data", count, 1, WavePoints.LOAD_MAX);
    }
    if (at + count > pointsMax) {
      throw FieldProblem.outOfRange("at", at, 0, pointsMax - count);
    }
    return new Command.Load(at, data);
  }

  private Command play(Fields fields) {
    return switch (fields.word("wave", "tone", "table", "dc")) {
      case "tone" -> {
        refuse(fields, "points");
        long step = step(fields);
        int level = level(fields);
        int dc = dc(fields);
        refuse(fields, "crc");
        yield new Command.PlayTone(step, level, dc);
      }
      case "table" ->
          new Command.PlayTable(
              powerOfTwo(fields, "points", TABLE_MIN, identity.wave().pointsMax()),
              step(fields),
              level(fields),
              dc(fields),
              crc(fields));
      default -> {
        refuse(fields, "points", "step", "millihertz", "level");
        int dc = fields.integer("dc", -levelMax(), levelMax());
        refuse(fields, "crc");
        yield new Command.PlayDc(dc);
      }
    };
  }

  private static void refuse(Fields fields, String... keys) {
    for (String key : keys) {
      if (fields.has(key)) {
        throw FieldProblem.unknown(key);
      }
    }
  }

  private int level(Fields fields) {
    return fields.integer("level", 0, levelMax());
  }

  private int dc(Fields fields) {
    return fields.has("dc") ? fields.integer("dc", -levelMax(), levelMax()) : 0;
  }

  private long step(Fields fields) {
    if (fields.has("step") || !fields.has("millihertz")) {
      long step = fields.whole("step", 0, STEP_MAX);
      refuse(fields, "millihertz");
      return step;
    }
    int millihertz = fields.integer("millihertz", 1, MILLIHERTZ_MAX);
    long step = identity.stepFor(millihertz);
    if (step > STEP_MAX) {
      throw FieldProblem.outOfRange("millihertz", millihertz, 1, highestMillihertz());
    }
    return step;
  }

  /** The most millihertz whose step still fits: below half a step more than {@link #STEP_MAX}. */
  private long highestMillihertz() {
    long guess = (long) (identity.frequencyHz(STEP_MAX) * 1000) + 1;
    while (identity.stepFor(guess) > STEP_MAX) {
      guess--;
    }
    return guess;
  }

  private static OptionalInt crc(Fields fields) {
    if (!fields.has("crc")) {
      return OptionalInt.empty();
    }
    int crc = Hex.parse(fields.text("crc"), 4);
    if (crc == Hex.NONE) {
      throw FieldProblem.malformed("crc", fields.text("crc"), "four hexadecimal digits");
    }
    return OptionalInt.of(crc);
  }

  private static int powerOfTwo(Fields fields, String key, int low, int high) {
    int value = fields.integer(key, low, high);
    if (Integer.bitCount(value) != 1) {
      throw FieldProblem.malformed(key, fields.text(key), "a power of two");
    }
    return value;
  }

  private Command record(Fields fields) {
    JigIdentity.RecordLimits limits = identity.record();
    int channels = fields.integer("channels", 2, limits.channelsMax());
    int frames = fields.integer("frames", 1, limits.framesMax());
    int skip = fields.integer("skip", 0, limits.skipMax());
    int decimate = powerOfTwo(fields, "decimate", 1, limits.decimateMax());
    return new Command.RecordFrames(new RecordShape(channels, decimate), frames, skip);
  }

  private static Command store(Fields fields) {
    String key = fields.has("serial") || !fields.has("calibration") ? "serial" : "calibration";
    String id = fields.text(key);
    if (!IdentityLimits.isId(id)) {
      throw FieldProblem.malformed(key, id, "1 to 16 of A-Z a-z 0-9 -");
    }
    if (key.equals("serial")) {
      refuse(fields, "calibration");
    }
    return new Command.Store(key, Optional.of(id).filter(text -> !text.equals("none")));
  }
}
