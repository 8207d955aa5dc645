package conewise.protocol.vectors;

import conewise.protocol.JigIdentity;
import conewise.protocol.LinkBudget;
import conewise.protocol.RecordShape;
import java.util.HashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The numbers of a jig that dialogues name in braces: {@code {level_max}}, {@code {level_max+1}},
 * {@code {silence_ms-500}}, and {@code {step:34000}} for the step of 34 000 millihertz.
 */
final class DialogueVariables {
  private static final Pattern BRACES =
      Pattern.compile("\\{([a-z_]+)(?::([0-9]+)|([+-][0-9]+))?\\}");

  private final JigIdentity identity;
  private final Map<String, Long> values = new HashMap<>();

  DialogueVariables(JigIdentity identity) {
    this.identity = identity;
    putBoard();
    putLimits();
  }

  private void putBoard() {
    put("clock_hz", identity.clock().clockHz());
    put("tick_cycles", identity.clock().tickCycles());
    put("bits", identity.converter().bits());
    put("codes", identity.converter().codes());
    put("channels", identity.channels().size());
    put("lines", identity.toDetails(0).size());
    put("level_max", identity.drive().levelMax());
    put("points_max", identity.wave().pointsMax());
    put("foot", identity.fitted().foot() ? 1 : 0);
    put("lamps", identity.fitted().lamps() ? 1 : 0);
    put("buzzer", identity.fitted().buzzer() ? 1 : 0);
  }

  private void putLimits() {
    JigIdentity.RecordLimits record = identity.record();
    put("channels_max", record.channelsMax());
    put("frames_max", record.framesMax());
    put("skip_max", record.skipMax());
    put("decimate_max", record.decimateMax());
    put("halves", record.decimateMax() >= 2 ? 1 : 0);
    JigIdentity.Link link = identity.link();
    put("baud", link.baud());
    put("request_max", link.requestMax());
    put("line_max", link.lineMax());
    put("silence_ms", link.silenceMilliseconds());
    put("link_slow", LinkBudget.of(identity, new RecordShape(2, 1)).fits() ? 0 : 1);
  }

  private void put(String name, long value) {
    values.put(name, value);
  }

  long value(String name) {
    Long value = values.get(name);
    if (value == null) {
      throw new IllegalArgumentException("dialogues know no number named " + name);
    }
    return value;
  }

  String fill(String text) {
    Matcher matcher = BRACES.matcher(text);
    return matcher.replaceAll(
        found -> Long.toString(number(found.group(1), found.group(2), found.group(3))));
  }

  private long number(String name, String argument, String added) {
    if (argument != null) {
      if (!name.equals("step")) {
        throw new IllegalArgumentException("only step takes a number after a colon, not " + name);
      }
      return identity.stepFor(Long.parseLong(argument));
    }
    return value(name) + (added == null ? 0 : Long.parseLong(added));
  }
}
