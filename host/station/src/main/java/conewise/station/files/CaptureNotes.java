package conewise.station.files;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The {@code # key: value} lines above the samples of a raw capture. */
final class CaptureNotes implements CsvSource.Comments {

  static final String RATE = "sample_rate_hz";
  static final String DELAY = "current_delay_s";
  static final String VOLTAGE_RAIL = "voltage_rail_v";
  static final String CURRENT_RAIL = "current_rail_a";

  /** In place of a rail that is not known. */
  static final String NO_RAIL = "none";

  private static final double FASTEST_HZ = 1e9;
  private static final List<String> KEYS = List.of(RATE, DELAY, VOLTAGE_RAIL, CURRENT_RAIL);
  private static final Pattern NOTE = Pattern.compile("([A-Za-z]+(?:_[A-Za-z]+)+)\\s*[:=]\\s*(.*)");

  /** Where a channel saturates, in its own unit. */
  record Rails(double low, double high) {}

  private final Map<String, double[]> values = new HashMap<>();
  private boolean closed;

  /**
   * Takes in a comment; one that is no note is left to people, one that nearly is a note is
   * refused.
   */
  @Override
  public void comment(TextSource source, String text) throws BadFileException {
    Matcher note = NOTE.matcher(text);
    if (!note.matches()) {
      return;
    }
    String key = note.group(1).toLowerCase(Locale.ROOT);
    if (!KEYS.contains(key)) {
      refuseNearMiss(source, key);
      return;
    }
    if (closed) {
      throw source.bad("the note " + key + " stands below samples; move it above the first one.");
    }
    String[] words = note.group(2).strip().split("\\s+", -1);
    boolean rail = key.equals(VOLTAGE_RAIL) || key.equals(CURRENT_RAIL);
    if (values.put(key, rail ? rails(source, key, words) : single(source, key, words)) != null) {
      throw source.bad("the note " + key + " comes twice; keep one of the two.");
    }
  }

  /** Says that the samples have begun: a note may no longer follow. */
  void close() {
    closed = true;
  }

  /** The spacing of the samples in seconds. */
  double intervalSeconds(TextSource source) throws BadFileException {
    double[] rate = values.get(RATE);
    if (rate == null) {
      throw source.bad(
          "no line above says how fast was sampled; add a line such as # sample_rate_hz: 8000.");
    }
    return 1 / rate[0];
  }

  /** How much later each current sample was taken, in seconds; 0 when nothing is said. */
  double delaySeconds() {
    double[] delay = values.get(DELAY);
    return delay == null ? 0 : delay[0];
  }

  /** Where a channel saturates; infinite where nothing is said. */
  Rails rails(String key) {
    double[] pair = values.get(key);
    return pair == null
        ? new Rails(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY)
        : new Rails(pair[0], pair[1]);
  }

  private static void refuseNearMiss(TextSource source, String key) throws BadFileException {
    var near = Nearest.to(key, KEYS);
    if (near.isPresent()) {
      throw source.bad("the note " + Quoted.of(key) + " is not known; write " + near.get() + ".");
    }
  }

  private static double[] single(TextSource source, String key, String[] words)
      throws BadFileException {
    double value = number(source, key, String.join(" ", words));
    if (key.equals(RATE) && !(value > 0 && value <= FASTEST_HZ)) {
      throw source.bad("the note " + key + " is " + value + "; it must be above 0, at most 1e9.");
    }
    if (key.equals(DELAY) && Math.abs(value) > 1) {
      throw source.bad("the note " + key + " is " + value + " s; at most 1 s either way is taken.");
    }
    return new double[] {value};
  }

  private static double[] rails(TextSource source, String key, String[] words)
      throws BadFileException {
    double low;
    double high;
    if (words.length == 2) {
      low = words[0].equals(NO_RAIL) ? Double.NEGATIVE_INFINITY : number(source, key, words[0]);
      high = words[1].equals(NO_RAIL) ? Double.POSITIVE_INFINITY : number(source, key, words[1]);
    } else {
      high = number(source, key, String.join(" ", words));
      low = -high;
    }
    if (!(low < high)) {
      throw source.bad(
          "the note "
              + key
              + " runs from "
              + low
              + " to "
              + high
              + "; give one number above 0 for both sides, or the low and the high one.");
    }
    return new double[] {low, high};
  }

  private static double number(TextSource source, String key, String text) throws BadFileException {
    OptionalDouble number = NumberText.parse(text);
    if (number.isEmpty()) {
      throw source.bad(
          "the note "
              + key
              + " is "
              + Quoted.of(text)
              + "; allowed is "
              + NumberText.ALLOWED
              + ".");
    }
    return number.getAsDouble();
  }
}
