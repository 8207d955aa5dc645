package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Gap;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * What several drivers and coils show together. By symmetry and Kirchhoff's laws unless said
 * otherwise (common practice).
 */
class CircuitClosedFormTest {
  private static final Coil A1 = new Coil("a", 1, false);
  private static final Coil A2 = new Coil("a", 2, false);
  private static final Coil B1 = new Coil("b", 1, false);
  private static final Coil B1_REVERSED = new Coil("b", 1, true);

  private static final PhysicalDriver ONE_COIL =
      new PhysicalDriver(0.06, 4e-4, 1.6, 0.035, 1, 3.4, 8);
  private static final PhysicalDriver TWO_COILS =
      new PhysicalDriver(0.06, 4e-4, 1.6, 0.035, 2, 3.4, 8);

  /** A driver with all that may make a difference: lossy coil, creep. */
  private static Driver rich() {
    return ONE_COIL
        .parameters()
        .withInductance(new Inductance(2e-4, 0.015, 0.7), 0)
        .withCreep(0.08);
  }

  private static BoxModel vented(double litre, Circuit circuit, String... drivers) {
    List<Opening> openings = new ArrayList<>();
    for (String name : drivers) {
      openings.add(new Mounted(name, rich(), "main", Space.OUTSIDE));
    }
    openings.add(new Vent("vent", 34, 40, "main", Space.OUTSIDE));
    openings.add(new Leak("leak", 15, "main", Space.OUTSIDE));
    return new BoxModel(
        Air.AT_20_CELSIUS, List.of(new Space("main", litre / 1000).lined(50)), openings, circuit);
  }

  private static BoxModel free(PhysicalDriver driver, Circuit circuit) {
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(),
        List.of(new Mounted("a", driver.parameters(), Space.OUTSIDE, Space.OUTSIDE)),
        circuit);
  }

  private static void assertCurve(DoubleFunction<Complex> expected, BoxModel box, double relative) {
    Network network = Network.of(box);
    for (double f = 1; f < 5000; f *= 1.07) {
      Complex wanted = expected.apply(f);
      double error = network.impedance(f).subtract(wanted).abs() / wanted.abs();
      assertEquals(0, error, relative, f + " Hz: " + network.impedance(f) + ", not " + wanted);
    }
  }

  private static DoubleFunction<Complex> curveOf(BoxModel box) {
    return Network.of(box)::impedance;
  }

  @Test
  void twoLikeDriversAreOneInHalfTheSpaceHalvedOrDoubled() {
    DoubleFunction<Complex> half = curveOf(vented(30, A1, "a"));
    BoxModel parallel = vented(60, Circuit.parallel(A1, B1), "a", "b");
    assertCurve(f -> half.apply(f).divide(2), parallel, 1e-11);
    assertCurve(
        f -> half.apply(f).multiply(2), parallel.withCircuit(Circuit.series(A1, B1)), 1e-11);
  }

  @Test
  void twoOpposedLikeDriversDoNotFeelTheBoxInSeriesEither() {
    DoubleFunction<Complex> alone =
        curveOf(
            new BoxModel(
                Air.AT_20_CELSIUS,
                List.of(),
                List.of(new Mounted("a", rich(), Space.OUTSIDE, Space.OUTSIDE)),
                A1));
    BoxModel series = vented(60, Circuit.series(A1, B1_REVERSED), "a", "b");
    assertCurve(f -> alone.apply(f).multiply(2), series, 1e-11);
    assertCurve(
        f -> alone.apply(f).divide(2),
        series.withCircuit(Circuit.parallel(A1, B1_REVERSED)),
        1e-11);
  }

  @Test
  void coilsOfOneDriverInSeriesShowFourTimesTheParallelPair() {
    BoxModel parallel = free(TWO_COILS, Circuit.parallel(A1, A2));
    DoubleFunction<Complex> curve = curveOf(parallel);
    assertCurve(
        f -> curve.apply(f).multiply(4), parallel.withCircuit(Circuit.series(A1, A2)), 1e-11);
    // The parallel pair is one coil of half the resistance.
    PhysicalDriver thick = new PhysicalDriver(0.06, 4e-4, 1.6, 0.035, 1, 1.7, 8);
    assertCurve(f -> thick.oneCoil(f, Complex.ZERO), parallel, 1e-11);
  }

  @Test
  void opposedCoilsOfOneDriverAreTheirResistanceAlone() {
    Coil opposed = new Coil("a", 2, true);
    assertCurve(f -> new Complex(2 * 3.4), free(TWO_COILS, Circuit.series(A1, opposed)), 1e-12);
    assertCurve(f -> new Complex(3.4 / 2), free(TWO_COILS, Circuit.parallel(A1, opposed)), 1e-12);
  }

  @Test
  void fullyCoupledOpposedCoilsHaveNoInductanceEither() {
    Driver coupled = TWO_COILS.parameters().withInductance(Inductance.lossy(0.02, 0.7), 1);
    BoxModel box =
        free(TWO_COILS, Circuit.series(A1, new Coil("a", 2, true)))
            .withDriver("a", driver -> coupled);
    assertCurve(f -> new Complex(2 * 3.4), box, 1e-12);
  }

  /** Series aiding 2 L (1 + k), opposing 2 L (1 - k): mutual inductance k L (common practice). */
  @Test
  void couplingAddsOrTakesTheMutualInductance() {
    double henry = 0.001;
    double coupling = 0.85;
    BoxModel aiding =
        free(TWO_COILS, Circuit.series(A1, A2))
            .withDriver("a", d -> d.withInductance(Inductance.plain(henry), coupling));
    assertCurve(
        f ->
            TWO_COILS
                .mechanical(f, Complex.ZERO)
                .reciprocal()
                .multiply(4 * 8 * 8)
                .add(new Complex(2 * 3.4, 2 * Math.PI * f * 2 * henry * (1 + coupling))),
        aiding,
        1e-12);
    assertCurve(
        f -> new Complex(2 * 3.4, 2 * Math.PI * f * 2 * henry * (1 - coupling)),
        aiding.withCircuit(Circuit.series(A1, new Coil("a", 2, true))),
        1e-12);
  }

  /** The lossy part is shared between coils as the plain one is. */
  @Test
  void couplingAddsOrTakesTheLossyInductanceToo() {
    double coupling = 0.7;
    double exponent = 0.65;
    BoxModel aiding =
        free(TWO_COILS, Circuit.series(A1, A2))
            .withDriver("a", d -> d.withInductance(Inductance.lossy(0.02, exponent), coupling));
    assertCurve(
        f ->
            TWO_COILS
                .mechanical(f, Complex.ZERO)
                .reciprocal()
                .multiply(4 * 8 * 8)
                .add(2 * 3.4)
                .add(power(f, exponent).multiply(0.02 * 2 * (1 + coupling))),
        aiding,
        1e-12);
    assertCurve(
        f -> power(f, exponent).multiply(0.02 * 2 * (1 - coupling)).add(2 * 3.4),
        aiding.withCircuit(Circuit.series(A1, new Coil("a", 2, true))),
        1e-12);
  }

  private static Complex power(double hz, double exponent) {
    return new Complex(0, 2 * Math.PI * hz).pow(exponent);
  }

  /**
   * Coils of 1 and 1.5 turns: force factors as the turns, inductances as their squares, the mutual
   * one as their product; Qes by the force factors of both over both resistances.
   */
  @Test
  void unlikeCoilsCountByTheirTurns() {
    double mass = 0.06;
    double fs = 32;
    double compliance = 1 / (Math.pow(2 * Math.PI * fs, 2) * mass);
    double first = 6;
    double second = 9;
    double qes = 2 * Math.PI * fs * mass * (3 + 5) / Math.pow(first + second, 2);
    Driver driver =
        new Driver(
            fs,
            2 * Math.PI * fs * mass / 1.6,
            qes,
            0.05,
            List.of(new Driver.VoiceCoil(3, 1), new Driver.VoiceCoil(5, 1.5)),
            Inductance.plain(0.001),
            0.8,
            0,
            java.util.OptionalDouble.empty(),
            0);
    BoxModel both =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(),
            List.of(new Mounted("a", driver, Space.OUTSIDE, Space.OUTSIDE)),
            Circuit.series(A1, A2));
    PhysicalDriver cone = new PhysicalDriver(mass, compliance, 1.6, 0.03, 1, 1, 1);
    assertCurve(f -> unlike(cone, f, 8, first + second, 1 + 2.25 + 2 * 0.8 * 1.5), both, 1e-12);
    assertCurve(
        f -> unlike(cone, f, 8, second - first, 1 + 2.25 - 2 * 0.8 * 1.5),
        both.withCircuit(Circuit.series(A1, new Coil("a", 2, true))),
        1e-12);
    assertCurve(f -> unlike(cone, f, 3, first, 1), both.withCircuit(A1), 1e-12);
    assertCurve(f -> unlike(cone, f, 5, second, 2.25), both.withCircuit(A2), 1e-12);
  }

  private static Complex unlike(
      PhysicalDriver cone, double hz, double ohm, double force, double millihenry) {
    return cone.mechanical(hz, Complex.ZERO)
        .reciprocal()
        .multiply(force * force)
        .add(new Complex(ohm, 2 * Math.PI * hz * millihenry / 1000));
  }

  @Test
  void coilLeftOpenLeavesTheOtherAsASingleCoil() {
    assertCurve(f -> ONE_COIL.oneCoil(f, Complex.ZERO), free(TWO_COILS, A1), 1e-12);
    assertCurve(
        f -> ONE_COIL.oneCoil(f, Complex.ZERO),
        free(TWO_COILS, Circuit.parallel(A1, Circuit.series(A2, new Gap()))),
        1e-12);
  }

  @Test
  void bridgedCoilBrakesTheConeByItsForceFactorSquaredOverItsResistance() {
    BoxModel box = free(TWO_COILS, Circuit.series(A1, Circuit.parallel(A2, new Circuit.Bridge())));
    Complex brake = new Complex(8 * 8 / 3.4);
    assertCurve(f -> TWO_COILS.oneCoil(f, brake), box, 2e-6);
    double peak = TWO_COILS.oneCoil(TWO_COILS.resonanceHz(), Complex.ZERO).abs();
    assertTrue(Network.of(box).impedance(TWO_COILS.resonanceHz()).abs() < peak / 3);
  }

  @Test
  void driverWhoseCoilIsOpenIsAPassiveRadiator() {
    Driver idle = ONE_COIL.parameters();
    List<Space> spaces = List.of(new Space("main", 0.04));
    Mounted active = new Mounted("a", idle, "main", Space.OUTSIDE);
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            spaces,
            List.of(active, new Mounted("b", idle, "main", Space.OUTSIDE)),
            A1);
    BoxModel radiator =
        new BoxModel(
            Air.AT_20_CELSIUS,
            spaces,
            List.of(
                active,
                new PassiveRadiator(
                    "p",
                    idle.resonanceHz(),
                    idle.mechanicalQ(),
                    idle.equivalentVolumeM3(),
                    "main",
                    Space.OUTSIDE)),
            A1);
    assertCurve(curveOf(radiator), box, 1e-12);
    assertCurve(
        curveOf(radiator),
        box.withCircuit(Circuit.parallel(A1, Circuit.series(B1, new Gap()))),
        1e-12);
  }

  @Test
  void gapInTheOnlyPathIsRefusedWithAReason() {
    BoxModel box = free(ONE_COIL, Circuit.series(A1, new Gap()));
    Exception refused = assertThrows(IllegalArgumentException.class, () -> Network.of(box));
    assertTrue(refused.getMessage().contains("circuit is open"), refused.getMessage());
  }

  @Test
  void twoResistancesOfOneNameAndUnlikeValuesAreRefused() {
    Circuit.Resistance lead = new Circuit.Resistance("lead", 0.2);
    assertCurve(
        f -> ONE_COIL.oneCoil(f, Complex.ZERO).add(0.4),
        free(ONE_COIL, Circuit.series(lead, A1, lead)),
        1e-12);
    Circuit unlike = Circuit.series(lead, A1, new Circuit.Resistance("lead", 0.7));
    Exception refused = assertThrows(IllegalArgumentException.class, () -> free(ONE_COIL, unlike));
    assertTrue(refused.getMessage().contains("0.2"), refused.getMessage());
    assertTrue(refused.getMessage().contains("0.7"), refused.getMessage());
  }

  /**
   * Two like drivers, cone to magnet, with hardly any air between: one driver of the same fs and
   * half the Vas (common practice), here with half the resistance as the coils lie in parallel.
   */
  @Test
  void isobaricPairComesToOneDriverOfHalfTheEquivalentVolumeAsTheSpaceBetweenShrinks() {
    Driver driver = ONE_COIL.parameters();
    Driver pair =
        Driver.of(
            driver.resonanceHz(),
            driver.mechanicalQ(),
            driver.electricalQ(),
            driver.equivalentVolumeM3() / 2,
            1,
            3.4 / 2);
    Network expected =
        Network.of(
            new BoxModel(
                Air.AT_20_CELSIUS,
                List.of(new Space("main", 0.02)),
                List.of(new Mounted("a", pair, "main", Space.OUTSIDE)),
                A1));
    double before = largestDifference(expected, isobaric(driver, 1e-3));
    for (double volume = 1e-4; volume > 1e-7; volume /= 10) {
      double now = largestDifference(expected, isobaric(driver, volume));
      assertEquals(0.1, now / before, 0.03, "first order in the space of " + volume + " m3");
      before = now;
    }
    assertTrue(before < 2e-5, "still off by " + before);
  }

  private static Network isobaric(Driver driver, double betweenM3) {
    return Network.of(
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.02), new Space("between", betweenM3)),
            List.of(
                new Mounted("a", driver, "between", Space.OUTSIDE),
                new Mounted("b", driver, "main", "between")),
            Circuit.parallel(A1, B1)));
  }

  private static double largestDifference(Network expected, Network actual) {
    double largest = 0;
    for (double f = 5; f < 200; f *= 1.03) {
      Complex wanted = expected.impedance(f);
      largest = Math.max(largest, actual.impedance(f).subtract(wanted).abs() / wanted.abs());
    }
    return largest;
  }
}
