package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Resistance;
import conewise.analysis.model.Circuit.Series;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * What holds for every box of resistances, masses, springs and passive motors, whatever its
 * structure (energy, Ohm, symmetry, dimension: common practice); boxes drawn at random.
 */
class BoxPropertiesTest {
  private static final int BOXES = 300;
  private static final double LOWEST_HZ = 0.1;
  private static final double HIGHEST_HZ = 20_000;

  /** What must hold between a box and its changed fellow. */
  private interface Check {
    void hold(BoxModel box, Random random, String where);
  }

  private static void forDrawnBoxes(long seed, Check check) {
    Random random = new Random(seed);
    for (int i = 0; i < BOXES; i++) {
      check.hold(DrawnModels.box(random), random, "seed " + seed + ", box " + i);
    }
  }

  private static void assertSameCurve(
      BoxModel expected, BoxModel actual, double relative, String where) {
    Network one = Network.of(expected);
    Network other = Network.of(actual);
    for (double f = LOWEST_HZ; f < HIGHEST_HZ; f *= 1.37) {
      assertClose(one.impedance(f), other.impedance(f), relative, where + ", " + f + " Hz");
    }
  }

  private static void assertClose(Complex expected, Complex actual, double relative, String where) {
    assertEquals(
        0,
        actual.subtract(expected).abs() / expected.abs(),
        relative,
        where + ": " + actual + ", not " + expected);
  }

  /** A box without amplifier takes power at every frequency. */
  @Test
  void everyBoxTakesPowerAndHasANumberFromATenthHertzToTwentyKilohertz() {
    forDrawnBoxes(
        301,
        (box, random, where) -> {
          Network network = Network.of(box);
          for (double f = LOWEST_HZ; f <= HIGHEST_HZ; f *= 1.11) {
            Complex z = network.impedance(f);
            assertTrue(Double.isFinite(z.abs()), where + ", " + f + " Hz: " + z);
            assertTrue(z.getReal() > 0, where + ", " + f + " Hz: " + z);
          }
        });
  }

  /** At 0 Hz the cones rest and Ohm's and Kirchhoff's laws remain. */
  @Test
  void steadyCurrentSeesTheResistancesAlone() {
    forDrawnBoxes(
        302,
        (box, random, where) -> {
          Network network = Network.of(box);
          double ohm = steadyOhm(box.circuit(), box);
          assertClose(new Complex(ohm), network.impedance(0), 1e-12, where);
          assertClose(new Complex(ohm), network.impedance(1e-7), 1e-3, where + ", nearly 0 Hz");
        });
  }

  private static double steadyOhm(Circuit circuit, BoxModel box) {
    if (circuit instanceof Series series) {
      return series.parts().stream().mapToDouble(part -> steadyOhm(part, box)).sum();
    }
    if (circuit instanceof Parallel parallel) {
      return 1 / parallel.parts().stream().mapToDouble(part -> 1 / steadyOhm(part, box)).sum();
    }
    return circuit instanceof Coil coil
        ? box.driver(coil.driver()).coils().get(coil.number() - 1).resistanceOhm()
        : ((Resistance) circuit).ohm();
  }

  @Test
  void everyCoilReversedIsNotSeen() {
    forDrawnBoxes(
        303,
        (box, random, where) -> {
          Circuit circuit = box.circuit();
          for (Mounted mounted : box.drivers()) {
            circuit = circuit.withReversed(mounted.name());
          }
          assertSameCurve(box, box.withCircuit(circuit), 1e-10, where);
        });
  }

  @Test
  void orderOfPartsWithinSeriesAndParallelIsNotSeen() {
    forDrawnBoxes(
        304,
        (box, random, where) ->
            assertSameCurve(box, box.withCircuit(shuffled(box.circuit(), random)), 1e-9, where));
  }

  private static Circuit shuffled(Circuit circuit, Random random) {
    if (circuit instanceof Series series) {
      return new Series(shuffled(series.parts(), random));
    }
    return circuit instanceof Parallel parallel
        ? new Parallel(shuffled(parallel.parts(), random))
        : circuit;
  }

  private static List<Circuit> shuffled(List<Circuit> parts, Random random) {
    List<Circuit> list = new ArrayList<>(parts.stream().map(p -> shuffled(p, random)).toList());
    Collections.shuffle(list, random);
    return list;
  }

  @Test
  void orderOfSpacesAndOpeningsIsNotSeen() {
    forDrawnBoxes(
        305,
        (box, random, where) -> {
          List<Space> spaces = new ArrayList<>(box.spaces());
          List<Opening> openings = new ArrayList<>(box.openings());
          Collections.shuffle(spaces, random);
          Collections.shuffle(openings, random);
          assertSameCurve(
              box, new BoxModel(box.air(), spaces, openings, box.circuit()), 1e-9, where);
        });
  }

  /** Turning a driver round, magnet for cone, and its leads too, is the same motion. */
  @Test
  void driverTurnedRoundWithItsLeadsSwappedIsNotSeen() {
    forDrawnBoxes(
        306,
        (box, random, where) -> {
          Mounted first = box.drivers().get(0);
          List<Opening> openings = new ArrayList<>(box.openings());
          openings.set(
              openings.indexOf(first),
              new Mounted(first.name(), first.driver(), first.before(), first.behind()));
          BoxModel turned =
              new BoxModel(
                  box.air(), box.spaces(), openings, box.circuit().withReversed(first.name()));
          assertSameCurve(box, turned, 1e-10, where);
        });
  }

  /** The terminals tell ratios of volumes alone: areas scale by the root where masses are added. */
  @Test
  void allVolumesScaledTogetherAreNotSeen() {
    forDrawnBoxes(
        307,
        (box, random, where) -> {
          double factor = Math.exp(DrawnModels.between(random, -2, 2));
          BoxModel scaled =
              new BoxModel(
                  box.air(),
                  box.spaces().stream()
                      .map(s -> new Space(s.name(), factor * s.volumeM3(), s.absorptionQ()))
                      .toList(),
                  box.openings().stream().map(o -> scaled(o, factor)).toList(),
                  box.circuit());
          assertSameCurve(box, scaled, 1e-9, where);
        });
  }

  private static Opening scaled(Opening opening, double factor) {
    if (opening instanceof PassiveRadiator radiator) {
      return new PassiveRadiator(
          radiator.name(),
          radiator.resonanceHz(),
          radiator.mechanicalQ(),
          factor * radiator.equivalentVolumeM3(),
          radiator.behind(),
          radiator.before());
    }
    if (opening instanceof Mounted mounted) {
      Driver driver = mounted.driver();
      return new Mounted(
          mounted.name(),
          new Driver(
              driver.resonanceHz(),
              driver.mechanicalQ(),
              driver.electricalQ(),
              factor * driver.equivalentVolumeM3(),
              driver.coils(),
              driver.inductance(),
              driver.coupling(),
              driver.creep(),
              OptionalDouble.of(Math.sqrt(factor) * driver.areaM2().orElseThrow()),
              driver.addedMassKg()),
          mounted.behind(),
          mounted.before());
    }
    return opening;
  }

  /**
   * With vents stated by what they tune to, and drivers by fs, Qs and Vas, the air cancels: neither
   * its temperature nor its pressure is seen. A vent of given geometry is another matter, and so is
   * a mass stuck on a cone when the pressure changes.
   */
  @Test
  void airIsNotSeenWhereEverythingIsStatedByFrequencyQualityAndVolume() {
    forDrawnBoxes(
        308,
        (box, random, where) -> {
          double celsius = DrawnModels.between(random, -20, 45);
          assertSameCurve(box, inAir(box, Air.at(celsius)), 1e-10, where);
          BoxModel bare = box;
          for (Mounted mounted : box.drivers()) {
            bare = bare.withDriver(mounted.name(), driver -> driver.withAddedMass(0));
          }
          assertSameCurve(bare, inAir(bare, new Air(0.9, 330)), 1e-10, where);
        });
  }

  private static BoxModel inAir(BoxModel box, Air air) {
    return new BoxModel(air, box.spaces(), box.openings(), box.circuit());
  }

  /**
   * Reciprocity: two parts of a box are a two-port with Zab = Zba. Then aiding and opposing series
   * add up to 2 (Zaa + Zbb), and the parallel pair is (Zaa Zbb - Zab^2) / (Zaa + Zbb - 2 Zab), Zab
   * being a quarter of the difference of the two series (two-port theory, common practice).
   */
  @Test
  void twoDriversOfABoxAreAReciprocalTwoPort() {
    Random random = new Random(309);
    for (int i = 0; i < BOXES; i++) {
      BoxModel box = DrawnModels.box(random);
      while (box.drivers().size() < 2) {
        box = DrawnModels.box(random);
      }
      String where = "seed 309, box " + i;
      Circuit a = chain(box.drivers().get(0));
      Circuit b = chain(box.drivers().get(1));
      Circuit turned = b.withReversed(box.drivers().get(1).name());
      for (double f = 3; f < 600; f *= 1.6) {
        Complex own = at(box, a, f).add(at(box, b, f));
        Complex aiding = at(box, Circuit.series(a, b), f);
        Complex opposing = at(box, Circuit.series(a, turned), f);
        assertClose(own.multiply(2), aiding.add(opposing), 1e-10, where + " series");
        Complex mutual = aiding.subtract(opposing).divide(4);
        Complex parallel =
            at(box, a, f)
                .multiply(at(box, b, f))
                .subtract(mutual.multiply(mutual))
                .divide(own.subtract(mutual.multiply(2)));
        assertClose(parallel, at(box, Circuit.parallel(a, b), f), 1e-8, where + " parallel");
      }
    }
  }

  private static Circuit chain(Mounted mounted) {
    List<Circuit> coils = new ArrayList<>();
    for (int k = 1; k <= mounted.driver().coils().size(); k++) {
      coils.add(Circuit.coil(mounted.name(), k));
    }
    return new Series(coils);
  }

  private static Complex at(BoxModel box, Circuit circuit, double hz) {
    return Network.of(box.withCircuit(circuit)).impedance(hz);
  }

  /** A leak or vent of hardly any conductance is none; a huge closed space is the free air. */
  @Test
  void partsThatHardlyConductAndSpacesThatHardlyResistAreNotSeen() {
    forDrawnBoxes(
        310,
        (box, random, where) -> {
          assertSameCurve(
              box, box.with(new Opening.Leak("tiny", 1e12, "s0", Space.OUTSIDE)), 1e-8, where);
          Driver driver = box.drivers().get(0).driver().withAddedMass(0);
          BoxModel free = BoxModel.freeAir(driver);
          BoxModel vast =
              new BoxModel(
                  free.air(),
                  List.of(new Space("hall", 1e9)),
                  List.of(new Mounted("driver", driver, "hall", Space.OUTSIDE)),
                  free.circuit());
          assertSameCurve(free, vast, 1e-8, where);
        });
  }
}
