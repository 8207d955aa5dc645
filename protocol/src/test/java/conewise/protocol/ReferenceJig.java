package conewise.protocol;

import java.util.ArrayList;
import java.util.List;

/** The jig that the vectors speak to; the same as in vectors/README.md. */
final class ReferenceJig {
  static final List<String> DETAILS =
      List.of(
          "jig protocol=1 firmware=0.1.0 board=atmega328p-5v serial=none calibration=none",
          "clock clock_hz=16000000 tick_cycles=1024",
          "converter bits=10 codes=1024",
          "channel number=0 name=voltage unit=V offset_code=511.5 per_code=-0.0048828125"
              + " delay_ns=0",
          "channel number=1 name=current unit=A offset_code=511.5 per_code=1.6276e-4"
              + " delay_ns=64000",
          "channel number=2 name=microphone unit=V offset_code=512 per_code=4.8828125e-3"
              + " delay_ns=128000",
          "drive level_max=511 volt_per_level=0.0078125 source_ohm=10",
          "wave points_max=1024 point_bits=8",
          "record channels_max=3 frames_max=1000000 skip_max=1000000 decimate_max=256",
          "link baud=500000 request_max=120 line_max=160 silence_ms=2000",
          "fitted foot=1 lamps=1 buzzer=1");

  private ReferenceJig() {}

  static JigIdentity identity() {
    return JigIdentity.fromDetails(details(DETAILS));
  }

  static List<Detail> details(List<String> texts) {
    List<Detail> details = new ArrayList<>();
    for (String text : texts) {
      Line line = Line.of(Checksum.seal("1 + " + text), LineReader.JIG_LINE_MAX).orElseThrow();
      details.add((Detail) ((ReplyParser.Read) ReplyParser.parse(line)).message());
    }
    return details;
  }

  /**
   * The details with the first text that begins with {@code start} changed by one replacement,
   * which must apply.
   */
  static List<Detail> with(String start, String old, String other) {
    List<String> texts = new ArrayList<>(DETAILS);
    int at =
        texts.indexOf(texts.stream().filter(t -> t.startsWith(start)).findFirst().orElseThrow());
    String changed = texts.get(at).replace(old, other);
    if (changed.equals(texts.get(at))) {
      throw new IllegalArgumentException(old + " does not stand in " + texts.get(at));
    }
    texts.set(at, changed);
    return details(texts);
  }
}
