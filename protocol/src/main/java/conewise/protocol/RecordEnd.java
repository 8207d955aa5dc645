package conewise.protocol;

import java.util.List;
import java.util.stream.Collectors;

/**
 * The pushed line that ends a record.
 *
 * @param recordId 1 to 255
 * @param frames frames sent
 * @param blocks blocks sent
 * @param complete whether all frames asked for were sent
 * @param low the lowest raw code of each channel; empty when no frame was sent
 * @param high the highest raw code of each channel; empty when no frame was sent
 */
public record RecordEnd(
    int recordId, int frames, int blocks, boolean complete, List<Integer> low, List<Integer> high) {
  /** The event of such a line. */
  public static final String EVENT = "recorded";

  /** An end. */
  public RecordEnd {
    low = List.copyOf(low);
    high = List.copyOf(high);
  }

  /**
   * Reads the pushed line.
   *
   * @throws FieldProblem if a field is absent or wrong
   * @throws IllegalArgumentException if the event is another, or frames, low and high do not fit
   *     together
   */
  public static RecordEnd from(Pushed pushed) {
    if (!pushed.event().equals(EVENT)) {
      throw new IllegalArgumentException(
          "a record ends with " + EVENT + ", not with " + pushed.event());
    }
    Fields fields = pushed.fields();
    RecordEnd end =
        new RecordEnd(
            fields.integer("record", 1, 255),
            fields.integer("frames", 0, Integer.MAX_VALUE),
            fields.integer("blocks", 0, 0x10000),
            fields.word("complete", "yes", "no").equals("yes"),
            codes(fields, "low"),
            codes(fields, "high"));
    if (end.low.size() != end.high.size() || end.low.isEmpty() != (end.frames == 0)) {
      throw new IllegalArgumentException(
          "low and high must have a code for each channel when frames were sent, but "
              + pushed.toText()
              + " has not");
    }
    return end;
  }

  private static List<Integer> codes(Fields fields, String key) {
    return fields.has(key) ? fields.integers(key, 0, RecordShape.RAW_MAX) : List.of();
  }

  /** The line to push. */
  public Pushed toPushed() {
    Fields fields =
        Fields.NONE
            .with("record", recordId)
            .with("frames", frames)
            .with("blocks", blocks)
            .with("complete", complete ? "yes" : "no");
    return new Pushed(
        EVENT, frames == 0 ? fields : fields.with("low", commas(low)).with("high", commas(high)));
  }

  private static String commas(List<Integer> codes) {
    return codes.stream().map(String::valueOf).collect(Collectors.joining(","));
  }
}
