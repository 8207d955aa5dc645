package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.Stated;
import conewise.station.files.BadFileException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The plans in docs/examples/plans, each of another kind of box. */
class PlanExamplesTest {
  private static final Path FOLDER = Path.of("../../docs/examples/plans");

  static Stream<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.sorted().toList().stream();
    }
  }

  @Test
  void thereAreTen() throws IOException {
    assertEquals(10, examples().count());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void eachIsReadAndWrittenAndMakesAModel(Path file) throws BadFileException {
    PlannedBox plan = PlannedBoxFile.read(file);
    String bird = plan.name().split(",", 2)[0].toLowerCase(Locale.ROOT);
    assertEquals(bird + ".yaml", file.getFileName().toString());
    assertEquals(plan.drivers().size(), plan.model().drivers().size());
    assertTrue(plan.model().conducts() && !plan.unknowns().isEmpty());
    String text = PlannedBoxText.write(plan);
    assertEquals(plan, PlannedBoxFile.parse("again.yaml", text.lines().toList()), text);
  }

  /** Spaces, vents, passive radiators, drivers and coils, counted by eye. */
  @ParameterizedTest
  @CsvSource({
    "dunlin, 1, 0, 0, 1, 1",
    "sanderling, 1, 1, 0, 2, 4",
    "ruff, 1, 1, 0, 1, 1",
    "godwit, 1, 1, 0, 2, 2",
    "knot, 2, 1, 0, 2, 2",
    "turnstone, 2, 1, 0, 1, 2",
    "curlew, 2, 2, 0, 2, 2",
    "whimbrel, 2, 0, 0, 2, 2",
    "avocet, 1, 0, 1, 1, 1",
    "lapwing, 1, 1, 0, 4, 8",
  })
  void eachHasItsParts(String bird, int spaces, int vents, int radiators, int drivers, int coils)
      throws BadFileException {
    PlannedBox plan = read(bird);
    assertEquals(spaces, plan.spaces().size());
    assertEquals(vents, plan.vents().size());
    assertEquals(radiators, plan.radiators().size());
    assertEquals(drivers, plan.drivers().size());
    assertEquals(coils, plan.wiring().coils().size());
  }

  /**
   * Worked beside with Python's math at c 343.2 m/s, rho 1.204 kg/m3: 4 in = 101.6 mm, 9 in = 228.6
   * mm, 2.1 cu ft = 59.465 litres; 4.6 oz = 130.41 g with 0.21 mm/N: fs 30.4130 Hz; 74 sq in =
   * 477.42 cm2: Vas 67.8795 litres; Qts .4 and Qms 6: Qes .428571; tuning 36.6473 Hz.
   */
  @Test
  void imperialUnitsAndDerivedFiguresComeOutInMetric() throws BadFileException {
    PlannedBox ruff = read("ruff");
    DriverKind kind = ruff.kind("twelve inch");
    assertEquals(30.4130, kind.resonanceHz().orElseThrow().value(), 1e-4);
    assertEquals(0.0678795, kind.equivalentVolumeM3().orElseThrow().value(), 1e-7);
    assertEquals(0.428571, kind.electricalQ().orElseThrow().value(), 1e-6);
    assertEquals(0.0594654, ruff.spaces().get(0).volumeM3().orElseThrow().value(), 1e-7);
    assertEquals(36.6473, ruff.vents().get(0).tuningHz().orElseThrow().value(), 1e-4);
    assertEquals(0.02, ruff.leadOhm());
  }

  /**
   * Worked beside with SciPy: 39.9255 Hz for the slot by Rayleigh's integral, its image in the wall
   * counted (see SectionTest), 40.2243 Hz for two flanged at both ends.
   */
  @Test
  void ventsBySizeGiveATuning() throws BadFileException {
    assertEquals(39.9255, tuningHz(read("godwit")), 1e-4);
    assertEquals(40.2243, tuningHz(read("lapwing")), 1e-4);
  }

  @Test
  void anIsobaricPairIsWiredTheOtherWayRound() throws BadFileException {
    PlannedBox whimbrel = read("whimbrel");
    assertEquals(
        List.of(
            new PlacedDriver("inner", "eight inch", "main", "between"),
            new PlacedDriver("outer", "eight inch", "outside", "between")),
        whimbrel.drivers());
    assertEquals(
        Circuit.parallel(Circuit.coil("inner", 1), new Circuit.Coil("outer", 1, true)),
        whimbrel.wiring());
  }

  @Test
  void limitsAreForTheSpaceThatTheyName() throws BadFileException {
    assertEquals(
        Map.of("rear", new Interval(24.7, 27.3), "front", new Interval(55, 61)),
        read("curlew").demands().tuningHz());
    Demands knot = read("knot").demands();
    assertEquals(Map.of("bottom", new Interval(31.3, 34.7)), knot.tuningHz());
    assertEquals(Map.of("top", new Interval(45, 57)), knot.closedResonanceHz());
    assertEquals(Map.of("top", 5.0, "bottom", 6.0), knot.leastLossQ());
  }

  @Test
  void aFullPlanKeepsItsTolerancesAndTheShopsOtherKinds() throws BadFileException {
    PlannedBox lapwing = read("lapwing");
    DriverKind kind = lapwing.kindOf("d");
    assertEquals(Optional.of(new Stated(31, 0.075)), kind.resonanceHz());
    assertEquals(Optional.of(new Stated(6.2, 0.2)), kind.mechanicalQ());
    assertEquals(new Stated(3.6, 0.025), kind.coilOhm().get(1));
    assertEquals(List.of(new Stated(6, 0.05)), lapwing.kind("ten inch of one coil").coilOhm());
  }

  /**
   * A learned plan has no file to come from: names and figures of any kind that a file can hold.
   */
  @Test
  void writesAPlanThatNeverWasInAFile() throws BadFileException {
    PlannedBox dunlin = read("dunlin");
    List<DriverKind> kinds = new ArrayList<>(dunlin.kinds());
    kinds.add(DriverKind.ofCoils("No", List.of(new Stated(1.0 / 3, 0.031))));
    PlannedBox learned =
        new PlannedBox(
            "\"Strandl\u00e4ufer\" \\ 8\u2033: #1 \ud83d\udc26",
            kinds,
            dunlin.drivers(),
            dunlin.spaces(),
            List.of(),
            List.of(),
            dunlin.wiring(),
            1.0 / 7,
            dunlin.demands());
    String text = PlannedBoxText.write(learned);
    assertEquals(learned, PlannedBoxFile.parse("again.yaml", text.lines().toList()), text);
  }

  @Test
  void refusesToWriteWhatAFileCannotSay() throws BadFileException {
    PlannedBox dunlin = read("dunlin");
    PlannedBox gap =
        new PlannedBox(
            "x",
            dunlin.kinds(),
            dunlin.drivers(),
            dunlin.spaces(),
            List.of(),
            List.of(),
            Circuit.series(Circuit.coil("woofer", 1), new Circuit.Gap()),
            0,
            dunlin.demands());
    assertThrows(IllegalArgumentException.class, () -> PlannedBoxText.write(gap));
  }

  private static double tuningHz(PlannedBox plan) {
    return plan.vents().get(0).tuningHz().orElseThrow().value();
  }

  private static PlannedBox read(String bird) throws BadFileException {
    return PlannedBoxFile.read(FOLDER.resolve(bird + ".yaml"));
  }
}
