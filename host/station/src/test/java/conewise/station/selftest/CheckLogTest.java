package conewise.station.selftest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.ZonedDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CheckLogTest {
  @TempDir Path folder;

  private static CheckReading reading(double ohm) {
    return new CheckReading(
        ZonedDateTime.parse("2026-11-26T02:15:00Z"),
        "10 ohm",
        10,
        0.01,
        ohm,
        0.002,
        0.006,
        Optional.of("CAL-1"),
        Optional.of(21.5));
  }

  @Test
  void readingsComeBackAsTheyWereInTheirOrder() throws Exception {
    CheckLog log = CheckLog.in(folder.resolve("jig-A"));
    assertEquals(new CheckLog.Content(List.of(), 0), log.read());
    CheckReading plain =
        new CheckReading(
            ZonedDateTime.parse("2026-11-27T02:15:00+01:00"),
            "R7 blue",
            4.7,
            0.05,
            4.71,
            0,
            0.041,
            Optional.empty(),
            Optional.empty());
    log.append(reading(10.01));
    log.append(plain);
    assertEquals(new CheckLog.Content(List.of(reading(10.01), plain), 0), log.read());
    assertTrue(Files.readString(log.file()).startsWith(CheckLog.HEADER + "\n"));
  }

  @Test
  void aLineThatWasCutSpoilsNoOther() throws Exception {
    CheckLog log = CheckLog.in(folder);
    log.append(reading(10.01));
    Files.writeString(log.file(), "2026-11-26T02:1", StandardOpenOption.APPEND);
    log.append(reading(10.02));
    assertEquals(new CheckLog.Content(List.of(reading(10.01), reading(10.02)), 1), log.read());
  }

  @Test
  void aDamagedFileIsReadAsFarAsItIsWhole() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    Random random = new Random(seed);
    String good =
        CheckLog.HEADER
            + "\n"
            + CheckLog.line(reading(10.01))
            + "\n"
            + CheckLog.line(reading(10.02))
            + "\n";
    for (int trial = 0; trial < 1000; trial++) {
      byte[] bytes = good.getBytes(StandardCharsets.UTF_8);
      int at = random.nextInt(bytes.length);
      boolean lineEnd = bytes[at] == '\n';
      bytes[at] = (byte) random.nextInt(256);
      byte[] damaged = trial % 3 == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
      CheckLog.Content content = CheckLog.content(new String(damaged, StandardCharsets.UTF_8));
      String where = "seed " + seed + " trial " + trial;
      assertTrue(content.readings().size() <= 3, where);
      for (CheckReading each : content.readings()) {
        assertTrue(each.readOhm() > 0 && Double.isFinite(each.readOhm()), where);
      }
      if (trial % 3 != 0 && !lineEnd) {
        assertTrue(content.readings().size() >= 1, where);
      }
    }
  }
}
