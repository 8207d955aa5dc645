package conewise.station.calibrating;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.OnePortCorrection;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.protocol.JigIdentity;
import conewise.simulator.world.DemoWorld;
import conewise.station.files.BadFileException;
import conewise.station.measuring.JigChoice;
import conewise.station.selftest.CheckReading;
import conewise.station.selftest.DriftWatch;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CalibrationShelfTest {
  private static final ZonedDateTime NOON = ZonedDateTime.parse("2026-11-26T12:00:00Z");

  @TempDir Path folder;
  private CalibrationShelf shelf;
  private JigIdentity jig;

  @BeforeEach
  void reachTheJig() throws Exception {
    shelf = new CalibrationShelf(folder.resolve("a").resolve("b"));
    try (JigClient client =
        new JigChoice.Virtual(DemoWorld.HERON.load()).connect(StillScreen.progress())) {
      jig = client.identity();
    }
  }

  private static StoredCalibration stored(String id, ZonedDateTime taken, JigIdentity jig) {
    return new StoredCalibration(
        new Calibration(id, OnePortCorrection.nominal(0.05, 1, 0.001)),
        taken,
        0.001,
        jig,
        Optional.of(21.0));
  }

  private JigIdentity named(Optional<String> serial, String board) {
    return new JigIdentity(
        new JigIdentity.Jig(jig.jig().firmware(), board, serial, Optional.of("OTHER")),
        jig.clock(),
        jig.converter(),
        jig.channels(),
        jig.drive(),
        jig.wave(),
        jig.record(),
        jig.link(),
        jig.fitted());
  }

  @Test
  void theYoungestOfTheJigIsFoundAndTheOldOnesStay() throws Exception {
    assertEquals(Optional.empty(), shelf.of(jig).stored());
    shelf.keep(stored("NEW", NOON, jig));
    shelf.keep(stored("OLD", NOON.minusDays(90), jig));
    shelf.keep(stored("OTHER", NOON.plusHours(1), named(Optional.of("B-2"), "virtual")));
    CalibrationShelf.Held held = shelf.of(jig);
    assertEquals("NEW", held.stored().orElseThrow().calibration().calibration().id());
    assertEquals(Optional.of(21.0), held.stored().orElseThrow().calibration().temperatureCelsius());
    assertTrue(Files.exists(shelf.folderOf(jig).resolve("OLD.json")));
    assertThrows(BadFileException.class, () -> shelf.keep(stored("OLD", NOON, jig)));
    assertEquals(
        NOON.minusDays(90).toInstant(),
        CalibrationFile.read(shelf.folderOf(jig).resolve("OLD.json")).taken().toInstant());
  }

  @Test
  void aDamagedFileIsPassedOverAndNamed() throws Exception {
    shelf.keep(stored("GOOD", NOON, jig));
    Files.writeString(shelf.folderOf(jig).resolve("BAD.json"), "{\"schema\":");
    CalibrationShelf.Held held = shelf.of(jig);
    assertEquals("GOOD", held.stored().orElseThrow().calibration().calibration().id());
    assertEquals(1, held.unreadable().size());
    assertTrue(held.unreadable().get(0).contains("BAD.json is no calibration"));
  }

  @Test
  void aSerialThatMovedToAnotherBoardIsForeign() throws Exception {
    shelf.keep(stored("FIRST", NOON, named(jig.jig().serial(), "elsewhere")));
    CalibrationShelf.Held held = shelf.of(jig);
    assertEquals(Optional.empty(), held.stored());
    assertTrue(held.foreign().orElseThrow().contains("board elsewhere"), held.foreign()::toString);
  }

  @Test
  void aJigWithoutASerialHasAPlaceOfItsOwn() throws Exception {
    JigIdentity nameless = named(Optional.empty(), "virtual");
    Path file = shelf.keep(stored("ONE", NOON, nameless));
    assertEquals("no-serial", file.getParent().getFileName().toString());
    assertEquals(
        CalibrationStanding.Kind.NAMELESS,
        CalibrationStanding.of(shelf.of(nameless).stored().orElseThrow().calibration(), 30, NOON)
            .kind());
  }

  @Test
  void aFileInThePlaceOfTheFolderIsSaidInOneSentence() throws Exception {
    Files.createDirectories(folder.resolve("a"));
    Files.writeString(folder.resolve("a").resolve("b"), "in the way");
    BadFileException bad =
        assertThrows(BadFileException.class, () -> shelf.keep(stored("ONE", NOON, jig)));
    assertTrue(bad.getMessage().contains("cannot be made"), bad.getMessage());
  }

  /** XDG Base Directory Specification: a relative path is ignored; else ~/.config (from memory). */
  @ParameterizedTest
  @CsvSource({
    "Linux, XDG_CONFIG_HOME=/x, /x/conewise/calibrations",
    "Linux, XDG_CONFIG_HOME=x, /home/me/.config/conewise/calibrations",
    "Linux, XDG_CONFIG_HOME=, /home/me/.config/conewise/calibrations",
    "Linux, OTHER=/x, /home/me/.config/conewise/calibrations",
    "Linux, CONEWISE_CALIBRATIONS=/shop/cal, /shop/cal",
    "Mac OS X, OTHER=/x, /home/me/Library/Application Support/conewise/calibrations",
    "Windows 11, APPDATA=/roam, /roam/conewise/calibrations"
  })
  void theUsualFolderIsTheUsersOwn(String system, String variable, Path wanted) {
    String[] parts = variable.split("=", 2);
    assertEquals(
        wanted,
        CalibrationShelf.usual(Map.of(parts[0], parts[1]), system, Path.of("/home/me")).folder());
  }

  @Test
  void ageIsCountedInDaysAndAFutureDateIsStale() {
    StoredCalibration stored = stored("ONE", NOON, jig);
    List<ZonedDateTime> times = List.of(NOON.plusDays(30), NOON.plusDays(31), NOON.minusDays(2));
    List<CalibrationStanding.Kind> kinds =
        times.stream().map(now -> CalibrationStanding.of(stored, 30, now).kind()).toList();
    assertEquals(
        List.of(
            CalibrationStanding.Kind.IN_ORDER,
            CalibrationStanding.Kind.STALE,
            CalibrationStanding.Kind.STALE),
        kinds);
    assertTrue(
        CalibrationStanding.of(stored, 30, NOON.plusDays(31))
            .sentence()
            .contains("31 days old; at most 30"));
  }

  private static CalibrationStanding.Kind after(
      int days, StoredCalibration stored, DriftWatch watch, int checkDays) {
    ShopRule rule = new ShopRule(true, checkDays, 0.01);
    return CalibrationStanding.of(stored, 30, watch, rule, NOON.plusDays(days)).kind();
  }

  private static DriftWatch read(int day, double ohm) {
    CheckReading reading =
        new CheckReading(
            NOON.plusDays(day),
            "A",
            10,
            0.001,
            ohm,
            0.001,
            0.001,
            Optional.of("ONE"),
            Optional.empty());
    return DriftWatch.of(List.of(reading), "ONE", 0.01, NOON.plusDays(60));
  }

  @Test
  void aCheckResistorProvesACalibrationForItsDaysAndContradictsItUntilItIsGoodAgain() {
    StoredCalibration stored = stored("ONE", NOON, jig);
    DriftWatch none = DriftWatch.nothing();
    assertEquals(CalibrationStanding.Kind.IN_ORDER, after(7, stored, none, 7));
    assertEquals(CalibrationStanding.Kind.UNCHECKED, after(8, stored, none, 7));
    assertEquals(CalibrationStanding.Kind.IN_ORDER, after(8, stored, none, 9));
    assertEquals(CalibrationStanding.Kind.IN_ORDER, after(29, stored, none, 0));
    assertEquals(CalibrationStanding.Kind.IN_ORDER, after(13, stored, read(6, 10.01), 7));
    assertEquals(CalibrationStanding.Kind.UNCHECKED, after(14, stored, read(6, 10.01), 7));
    assertEquals(CalibrationStanding.Kind.CONTRADICTED, after(2, stored, read(1, 10.3), 7));
    assertEquals(CalibrationStanding.Kind.CONTRADICTED, after(2, stored, read(1, 10.3), 0));
    assertEquals(CalibrationStanding.Kind.STALE, after(31, stored, read(30, 10.01), 7));
  }
}
