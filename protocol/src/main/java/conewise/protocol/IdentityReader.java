package conewise.protocol;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;

/** Reads a {@link JigIdentity} from the details of an answer. */
final class IdentityReader {
  private static final double ANY = Double.MAX_VALUE;

  private final List<Detail> details;

  IdentityReader(List<Detail> details) {
    this.details = List.copyOf(details);
  }

  JigIdentity read() {
    JigIdentity.Jig jig = one("jig", IdentityReader::jig);
    JigIdentity.Clock clock =
        one("clock", f -> new JigIdentity.Clock(whole(f, "clock_hz"), number(f, "tick_cycles")));
    JigIdentity.Converter converter =
        one("converter", f -> new JigIdentity.Converter(number(f, "bits"), number(f, "codes")));
    List<JigIdentity.Channel> channels = channels();
    JigIdentity.Drive drive =
        one(
            "drive",
            f ->
                new JigIdentity.Drive(
                    number(f, "level_max"),
                    decimal(f, "volt_per_level"),
                    decimal(f, "source_ohm")));
    JigIdentity.Wave wave =
        one("wave", f -> new JigIdentity.Wave(number(f, "points_max"), number(f, "point_bits")));
    JigIdentity.RecordLimits record = one("record", IdentityReader::record);
    JigIdentity.Link link = one("link", IdentityReader::link);
    JigIdentity.Fitted fitted =
        one(
            "fitted",
            f -> new JigIdentity.Fitted(flag(f, "foot"), flag(f, "lamps"), flag(f, "buzzer")));
    return explained(
        "as a whole",
        () -> new JigIdentity(jig, clock, converter, channels, drive, wave, record, link, fitted));
  }

  private static JigIdentity.Jig jig(Fields fields) {
    int protocol = number(fields, "protocol");
    if (protocol != JigIdentity.PROTOCOL) {
      throw new IllegalArgumentException(
          "the jig speaks protocol "
              + protocol
              + ", but this program speaks protocol "
              + JigIdentity.PROTOCOL);
    }
    return new JigIdentity.Jig(
        fields.text("firmware"),
        fields.text("board"),
        optional(fields, "serial"),
        optional(fields, "calibration"));
  }

  private List<JigIdentity.Channel> channels() {
    List<Fields> lines = lines("channel");
    if (lines.size() < 2 || lines.size() > 3) {
      throw new IdentityProblem(
          "The jig's answer to identify has "
              + lines.size()
              + " lines of the topic channel, but must have 2 or 3.");
    }
    return IntStream.range(0, lines.size())
        .mapToObj(
            i -> explained("line " + (i + 1) + " of topic channel", () -> channel(lines.get(i))))
        .toList();
  }

  private static JigIdentity.Channel channel(Fields fields) {
    return new JigIdentity.Channel(
        number(fields, "number"),
        fields.text("name"),
        fields.text("unit"),
        decimal(fields, "offset_code"),
        decimal(fields, "per_code"),
        decimal(fields, "delay_ns"));
  }

  private static JigIdentity.RecordLimits record(Fields fields) {
    return new JigIdentity.RecordLimits(
        number(fields, "channels_max"),
        number(fields, "frames_max"),
        number(fields, "skip_max"),
        number(fields, "decimate_max"));
  }

  private static JigIdentity.Link link(Fields fields) {
    return new JigIdentity.Link(
        number(fields, "baud"),
        number(fields, "request_max"),
        number(fields, "line_max"),
        number(fields, "silence_ms"));
  }

  private <T> T one(String topic, Function<Fields, T> reading) {
    List<Fields> lines = lines(topic);
    if (lines.size() != 1) {
      throw new IdentityProblem(
          "The jig's answer to identify has "
              + lines.size()
              + " lines of the topic "
              + topic
              + ", but must have 1.");
    }
    return explained("topic " + topic, () -> reading.apply(lines.get(0)));
  }

  private static <T> T explained(String where, java.util.function.Supplier<T> reading) {
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      String what = e.getMessage().endsWith(".") ? e.getMessage() : e.getMessage() + ".";
      throw new IdentityProblem(
          "The jig's answer to identify cannot be used, " + where + ": " + what);
    }
  }

  private List<Fields> lines(String topic) {
    return details.stream()
        .filter(detail -> detail.topic().equals(topic))
        .map(Detail::fields)
        .toList();
  }

  private static Optional<String> optional(Fields fields, String key) {
    return Optional.of(fields.text(key)).filter(id -> !id.equals("none"));
  }

  private static long whole(Fields fields, String key) {
    return fields.whole(key, Long.MIN_VALUE, Long.MAX_VALUE);
  }

  private static int number(Fields fields, String key) {
    return fields.integer(key, Integer.MIN_VALUE, Integer.MAX_VALUE);
  }

  private static double decimal(Fields fields, String key) {
    return fields.decimal(key, -ANY, ANY);
  }

  private static boolean flag(Fields fields, String key) {
    return fields.integer(key, 0, 1) == 1;
  }
}
