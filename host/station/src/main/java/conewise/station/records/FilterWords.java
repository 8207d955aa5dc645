package conewise.station.records;

import conewise.analysis.judgement.Decision;
import conewise.station.card.VerdictSign;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;

/**
 * What people write to say which runs they mean. What cannot be read is refused with the rest of a
 * sentence that begins with the name of what was asked.
 */
public final class FilterWords {
  private FilterWords() {}

  /**
   * The moment at which a day begins, or an instant.
   *
   * @param text a day like 2026-11-23, or an instant like 2026-11-23T08:00:00Z
   * @param zone whose day
   */
  public static Instant from(String text, ZoneId zone) {
    return instant(text, 0, zone);
  }

  /** The moment at which a day has ended, or an instant; written as for {@link #from}. */
  public static Instant upTo(String text, ZoneId zone) {
    return instant(text, 1, zone);
  }

  private static Instant instant(String text, int daysOn, ZoneId zone) {
    try {
      return text.contains("T")
          ? Instant.parse(text)
          : LocalDate.parse(text).plusDays(daysOn).atStartOfDay(zone).toInstant();
    } catch (DateTimeException bad) {
      throw new IllegalArgumentException(
          "is \""
              + text
              + "\"; write a day like 2026-11-23 or an instant like 2026-11-23T08:00:00Z.",
          bad);
    }
  }

  /** A decision: pass, fail, undecided or not-judged. */
  public static Decision decision(String text) {
    return Arrays.stream(Decision.values())
        .filter(each -> VerdictSign.of(each).machineWord().equals(text))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "is \"" + text + "\"; it must be pass, fail, undecided or not-judged."));
  }
}
