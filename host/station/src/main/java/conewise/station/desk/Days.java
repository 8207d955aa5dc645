package conewise.station.desk;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** Moments as people write them. */
final class Days {
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private Days() {}

  static String minute(Instant instant, ZoneId zone) {
    return MINUTE.format(instant.atZone(zone));
  }
}
