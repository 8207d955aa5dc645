package conewise.analysis.netlist;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Driver.VoiceCoil;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.Ngspice;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The exported text, run by the circuit solver ngspice, against the model's own curve. */
class SpiceSubcircuitTest {
  private static final double LOWEST_HZ = 9.5;
  private static final double HIGHEST_HZ = 400;
  private static final Inductance PLAIN = Inductance.plain(0.0009);
  private static final Inductance LOSSY = new Inductance(2e-4, 0.012, 0.7);

  @TempDir Path folder;

  /** Kinds of boxes; a coil's inductance and a creep are given. */
  private enum Kind {
    FREE_AIR,
    SEALED_LINED,
    VENTED,
    TWO_DRIVERS_ONE_REVERSED,
    BANDPASS_FOURTH_ORDER,
    BANDPASS_SIXTH_ORDER,
    VENT_BETWEEN_SPACES,
    PASSIVE_RADIATOR,
    ISOBARIC,
    DUAL_COILS_COUPLED,
    DUAL_COILS_ONE_OPEN,
    DUAL_COILS_ONE_REVERSED_AND_A_JOINT,
    DUAL_COILS_ONE_BRIDGED,
    ADDED_MASS;

    BoxModel box(Inductance inductance, double creep) {
      Driver one =
          Driver.of(31, 5, 0.42, 0.062, 1, 5.6).withInductance(inductance, 0).withCreep(creep);
      Driver dual =
          new Driver(
              29,
              6,
              0.5,
              0.05,
              List.of(new VoiceCoil(3.4), new VoiceCoil(3.6, 1.03)),
              inductance,
              0.85,
              creep,
              OptionalDouble.empty(),
              0);
      Space main = new Space("main", 0.045);
      Space rear = new Space("rear", 0.03);
      Mounted in = new Mounted("a", one, "main", Space.OUTSIDE);
      Mounted two = new Mounted("a", dual, "main", Space.OUTSIDE);
      Mounted between = new Mounted("a", one, "rear", "main");
      Vent vent = new Vent("vent", 33, 40, "main", Space.OUTSIDE);
      Leak leak = new Leak("leak", 12, "main", Space.OUTSIDE);
      Circuit a1 = Circuit.coil("a", 1);
      Circuit a2 = Circuit.coil("a", 2);
      Circuit turned = new Circuit.Coil("a", 2, true);
      return switch (this) {
        case FREE_AIR -> BoxModel.freeAir(one);
        case ADDED_MASS -> BoxModel.freeAir(one.withArea(0.033).withAddedMass(0.05));
        case SEALED_LINED ->
            box(
                List.of(main.lined(12)),
                Circuit.series(new Circuit.Resistance("leads", 0.2), a1),
                in,
                leak);
        case VENTED -> box(List.of(main.lined(40)), a1, in, vent, leak);
        case TWO_DRIVERS_ONE_REVERSED ->
            box(
                List.of(main),
                Circuit.parallel(a1, new Circuit.Coil("b", 1, true)),
                in,
                new Mounted("b", one.withMotor(0.5, 0.07), Space.OUTSIDE, "main"),
                vent);
        case BANDPASS_FOURTH_ORDER -> box(List.of(rear, main), a1, between, vent, leak);
        case BANDPASS_SIXTH_ORDER ->
            box(
                List.of(rear, main),
                a1,
                between,
                vent,
                new Vent("other", 58, 35, "rear", Space.OUTSIDE));
        case VENT_BETWEEN_SPACES ->
            box(
                List.of(rear, main),
                a1,
                in,
                new Vent("inner", 40, 30, "rear", "main"),
                new Leak("seam", 9, "rear", Space.OUTSIDE));
        case PASSIVE_RADIATOR ->
            box(
                List.of(main),
                a1,
                in,
                new PassiveRadiator("radiator", 17, 6, 0.09, "main", Space.OUTSIDE),
                leak);
        case ISOBARIC ->
            box(
                List.of(new Space("between", 0.004), main),
                Circuit.series(a1, Circuit.coil("b", 1)),
                new Mounted("a", one, "between", Space.OUTSIDE),
                new Mounted("b", one, "main", "between"),
                leak);
        case DUAL_COILS_COUPLED -> box(List.of(main), Circuit.series(a1, a2), two, vent);
        case DUAL_COILS_ONE_OPEN ->
            box(List.of(main), Circuit.parallel(a1, Circuit.series(a2, new Circuit.Gap())), two);
        case DUAL_COILS_ONE_REVERSED_AND_A_JOINT ->
            box(
                List.of(main),
                Circuit.parallel(a1, Circuit.series(new Circuit.Resistance("joint", 1.3), turned)),
                two,
                vent);
        case DUAL_COILS_ONE_BRIDGED ->
            box(
                List.of(main),
                Circuit.series(a1, Circuit.parallel(a2, new Circuit.Bridge())),
                two,
                vent);
      };
    }

    private static BoxModel box(List<Space> spaces, Circuit circuit, Opening... openings) {
      return new BoxModel(Air.AT_20_CELSIUS, spaces, List.of(openings), circuit);
    }
  }

  private static SpiceSubcircuit exported(String title, BoxModel box) {
    Outcome<SpiceSubcircuit> outcome =
        SpiceSubcircuit.of(
            title, box, SpiceSubcircuit.stated(box), LOWEST_HZ, HIGHEST_HZ, List.of("a note"));
    assertInstanceOf(Found.class, outcome, outcome.toString());
    return ((Found<SpiceSubcircuit>) outcome).value();
  }

  /** Worst departures of what ngspice reads, relative and in degrees. */
  private double[] departure(BoxModel box) throws Exception {
    SpiceSubcircuit spice = exported("Some box, no. 7", box);
    Files.writeString(folder.resolve("some.cir"), spice.text());
    List<Ngspice.Point> curve =
        Ngspice.impedance(
            folder,
            ".include some.cir\nX1 in 0 " + spice.name() + "\n",
            String.format(Locale.ROOT, "dec 60 %s %s", LOWEST_HZ, HIGHEST_HZ));
    assertTrue(curve.size() >= 90, curve.size() + " points");
    Network network = Network.of(box);
    double relative = 0;
    double degrees = 0;
    for (Ngspice.Point point : curve) {
      Complex ratio = point.ohm().divide(network.impedance(point.hz()));
      relative = Math.max(relative, Math.abs(ratio.abs() - 1));
      degrees = Math.max(degrees, Math.abs(Math.toDegrees(ratio.getArgument())));
    }
    return new double[] {relative, degrees, spice.worstRelative(), spice.worstDegrees()};
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void withoutLossyPartsNgspiceRunsTheModelsOwnCurve(Kind kind) throws Exception {
    Ngspice.require();
    double[] departure = departure(kind.box(PLAIN, 0));
    System.out.printf(Locale.ROOT, "%s: %.1e, %.1e degrees%n", kind, departure[0], departure[1]);
    assertEquals(0, departure[0], 1e-6, kind.toString());
    assertEquals(0, departure[1], Math.toDegrees(1e-6), kind.toString());
  }

  /** 0.5 % and 0.5 degrees are what the export promises; and the file says how far it is off. */
  @ParameterizedTest
  @EnumSource(Kind.class)
  void lossyCoilsAndCreepFollowWithinTheLimitAndTheFileSaysHowFar(Kind kind) throws Exception {
    Ngspice.require();
    for (double creep : new double[] {0.03, 0.1, 0.3}) {
      double[] departure = departure(kind.box(LOSSY, creep));
      System.out.printf(
          Locale.ROOT,
          "%s, creep %.2f: %.4f %%, %.4f degrees%n",
          kind,
          creep,
          100 * departure[0],
          departure[1]);
      assertTrue(departure[0] <= 0.005 && departure[1] <= 0.5, kind + ", creep " + creep);
      assertEquals(departure[0], departure[2], 0.1 * departure[0] + 1e-6, "what the file states");
      assertEquals(departure[1], departure[3], 0.1 * departure[1] + 1e-4, "what the file states");
    }
  }

  @Test
  void everyExponentOfALossyInductanceIsFollowed() throws Exception {
    Ngspice.require();
    for (double n : new double[] {0.35, 0.5, 0.65, 0.8, 0.9, 0.99, 0.9995, 1}) {
      double size = 0.6 * 5.6 / Math.pow(400 * Math.PI, n);
      double[] departure = departure(Kind.VENTED.box(Inductance.lossy(size, n), 0.05));
      assertTrue(departure[0] <= 0.005 && departure[1] <= 0.5, "exponent " + n);
    }
  }

  /** Drawn kinds, coils and creeps; a narrow range and a wide one. */
  @Test
  void theExportHoldsItsPromiseOverDrawnRanges() {
    long seed = System.nanoTime();
    Random random = new Random(seed);
    for (int i = 0; i < 40; i++) {
      Kind kind = Kind.values()[random.nextInt(Kind.values().length)];
      double n = 0.4 + 0.6 * random.nextDouble();
      double size = random.nextDouble() * 5 / Math.pow(400 * Math.PI, n) + 1e-6;
      BoxModel box = kind.box(Inductance.lossy(size, n), 0.4 * random.nextDouble());
      double low = 1 + 20 * random.nextDouble();
      double high = low * (1.5 + 100 * random.nextDouble());
      Outcome<SpiceSubcircuit> outcome =
          SpiceSubcircuit.of("x", box, SpiceSubcircuit.stated(box), low, high, List.of());
      assertInstanceOf(Found.class, outcome, "seed " + seed + ", " + kind + ": " + outcome);
    }
  }

  @Test
  void namesFromOutsideCannotBecomeStatements() throws Exception {
    String bad = "x\n.control\nshell touch gone\n.endc\n\u00e4";
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space(bad, 0.05)),
            List.of(new Mounted("a" + bad, Driver.of(30, 5, 0.4, 0.05, 1, 6), bad, Space.OUTSIDE)),
            Circuit.coil("a" + bad, 1));
    String text = exported(bad, box).text();
    assertTrue(
        text.lines().allMatch(line -> line.matches("[*RLCVHEF.].*") && line.matches("[ -~]*")),
        text);
    assertEquals(
        List.of(
            ".subckt box_x_control_shell_touch_gone_endc plus minus",
            ".ends box_x_control_shell_touch_gone_endc"),
        text.lines().filter(line -> line.startsWith(".")).toList());
  }

  @Test
  void theHeadSaysWhatItIsAndHowFarItIsOff() {
    String text = exported("Heron", Kind.VENTED.box(LOSSY, 0.07)).text();
    List<String> head = new ArrayList<>(text.lines().takeWhile(l -> l.startsWith("*")).toList());
    assertEquals("* Heron", head.get(0));
    assertTrue(text.contains("X1 plus minus box_heron"), text);
    assertTrue(head.contains("* a note"), text);
    assertTrue(
        head.get(head.size() - 1).matches(".*at most [0-9.]+ % and .*9.5 to 400 Hz\\."), text);
    assertFalse(text.matches("(?s).*\\b20[0-9][0-9]-.*"), "no date");
  }

  @Test
  void aRangeThatDoesNotRiseIsRefused() {
    BoxModel box = Kind.VENTED.box(PLAIN, 0);
    for (double[] range : new double[][] {{0, 100}, {50, 50}, {Double.NaN, 9}, {1, 1.0 / 0}}) {
      assertThrows(
          IllegalArgumentException.class,
          () ->
              SpiceSubcircuit.of(
                  "x", box, SpiceSubcircuit.stated(box), range[0], range[1], List.of()));
    }
  }

  /** Coils of exponents that no ladder over so many decades follows are refused, not written. */
  @Test
  void whatCannotBeFollowedIsRefusedWithBothFigures() {
    BoxModel box = Kind.FREE_AIR.box(Inductance.lossy(0.5, 0.9992), 0);
    Outcome<SpiceSubcircuit> outcome =
        SpiceSubcircuit.of("x", box, SpiceSubcircuit.stated(box), 0.001, 1e6, List.of());
    NoResult<?> none = assertInstanceOf(NoResult.class, outcome);
    assertTrue(none.because().contains("at most 0.5 % and 0.5 degrees"), none.because());
  }
}
