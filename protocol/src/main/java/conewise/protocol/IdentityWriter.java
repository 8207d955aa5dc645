package conewise.protocol;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Writes the details of a {@link JigIdentity}. */
final class IdentityWriter {
  private final int tag;
  private final List<Detail> details = new ArrayList<>();

  private IdentityWriter(int tag) {
    this.tag = tag;
  }

  static List<Detail> details(JigIdentity identity, int tag) {
    IdentityWriter writer = new IdentityWriter(tag);
    writer.writeBoard(identity);
    identity.channels().forEach(writer::write);
    writer.writeLimits(identity);
    return List.copyOf(writer.details);
  }

  private void writeBoard(JigIdentity identity) {
    JigIdentity.Jig jig = identity.jig();
    add(
        "jig",
        Fields.NONE
            .with("protocol", JigIdentity.PROTOCOL)
            .with("firmware", jig.firmware())
            .with("board", jig.board())
            .with("serial", jig.serial().orElse("none"))
            .with("calibration", jig.calibration().orElse("none")));
    JigIdentity.Clock clock = identity.clock();
    add(
        "clock",
        Fields.NONE.with("clock_hz", clock.clockHz()).with("tick_cycles", clock.tickCycles()));
    JigIdentity.Converter converter = identity.converter();
    add("converter", Fields.NONE.with("bits", converter.bits()).with("codes", converter.codes()));
  }

  private void write(JigIdentity.Channel channel) {
    add(
        "channel",
        Fields.NONE
            .with("number", channel.number())
            .with("name", channel.name())
            .with("unit", channel.unit())
            .with("offset_code", decimal(channel.offsetCode()))
            .with("per_code", decimal(channel.perCode()))
            .with("delay_ns", decimal(channel.delayNanoseconds())));
  }

  private void writeLimits(JigIdentity identity) {
    JigIdentity.Drive drive = identity.drive();
    add(
        "drive",
        Fields.NONE
            .with("level_max", drive.levelMax())
            .with("volt_per_level", decimal(drive.voltPerLevel()))
            .with("source_ohm", decimal(drive.sourceOhm())));
    JigIdentity.Wave wave = identity.wave();
    add(
        "wave",
        Fields.NONE.with("points_max", wave.pointsMax()).with("point_bits", wave.pointBits()));
    JigIdentity.RecordLimits record = identity.record();
    add(
        "record",
        Fields.NONE
            .with("channels_max", record.channelsMax())
            .with("frames_max", record.framesMax())
            .with("skip_max", record.skipMax())
            .with("decimate_max", record.decimateMax()));
    writeLink(identity);
  }

  private void writeLink(JigIdentity identity) {
    JigIdentity.Link link = identity.link();
    add(
        "link",
        Fields.NONE
            .with("baud", link.baud())
            .with("request_max", link.requestMax())
            .with("line_max", link.lineMax())
            .with("silence_ms", link.silenceMilliseconds()));
    JigIdentity.Fitted fitted = identity.fitted();
    add(
        "fitted",
        Fields.NONE
            .with("foot", fitted.foot() ? 1 : 0)
            .with("lamps", fitted.lamps() ? 1 : 0)
            .with("buzzer", fitted.buzzer() ? 1 : 0));
  }

  private void add(String topic, Fields fields) {
    details.add(new Detail(tag, topic, fields));
  }

  /**
   * The shortest digits that give the same double again, with a small e and no fraction of zero.
   */
  private static String decimal(double value) {
    String text = Double.toString(value).toLowerCase(Locale.ROOT).replace(".0e", "e");
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
