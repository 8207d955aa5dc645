package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Coil;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.DemoWorld;
import conewise.station.lab.SimulatedImpedance;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Two ways to one curve that share nothing: the virtual jig's differential equations in time, taken
 * to frequency by their state matrices, and the analysis' network in frequency.
 */
class TimeAndFrequencyTest {
  private static final int POINTS = 200;

  /** Where both hold everything exactly: rounding alone. */
  private static final double EXACT = 1e-10;

  /**
   * The virtual jig's leak holds a microsecond of mass, which turns its flow by 0.0025 rad at 400
   * Hz, and by less where a leak matters.
   */
  private static final double LEAK = 3e-4;

  /**
   * A chain of six sections follows the power law of a lossy coil to 1.5 % of the coil's part,
   * which is no more than half of the whole here.
   */
  private static final double CHAIN = 0.0075;

  private static final Inductance COIL = Inductance.plain(0.0008);

  /** Compares from 5 to 400 Hz as complex numbers. */
  private static void assertAgrees(Box box, BoxModel model, double limit, String what) {
    SimulatedImpedance time = SimulatedImpedance.of(box);
    Network network = Network.of(model);
    double[] modulus = new double[POINTS];
    double largest = 0;
    for (int i = 0; i < POINTS; i++) {
      double hz = 5 * Math.pow(80, i / (POINTS - 1.0));
      Complex expected = time.at(hz);
      Complex actual = network.impedance(hz);
      modulus[i] = Math.abs(actual.abs() / expected.abs() - 1);
      largest = Math.max(largest, actual.subtract(expected).abs() / expected.abs());
    }
    Arrays.sort(modulus);
    String figures =
        String.format(
            Locale.ROOT,
            "%s, frequency against time: |Z| median %.1e, worst %.1e; complex %.1e",
            what,
            modulus[POINTS / 2],
            modulus[POINTS - 1],
            largest);
    System.out.println(figures);
    assertTrue(largest <= limit, figures);
  }

  @ParameterizedTest
  @EnumSource(DemoWorld.class)
  void demoBoxesWithPlainCoilsAgree(DemoWorld world) {
    Box box = plain(world.load().box());
    assertAgrees(box, ModelOfBox.of(box), LEAK, world.worldName() + ", plain coils");
    Box tight = box.without("seams");
    assertAgrees(tight, ModelOfBox.of(tight), EXACT, world.worldName() + ", plain, no leak");
  }

  /** The dipper's coil is a step, which is no power law. */
  @ParameterizedTest
  @EnumSource(value = DemoWorld.class, mode = EnumSource.Mode.EXCLUDE, names = "DIPPER")
  void demoBoxesAgreeAsWellAsTheirLossyCoilsDo(DemoWorld world) {
    Box box = world.load().box();
    PowerLaw law = PowerLaw.of(world);
    assertAgrees(box, ModelOfBox.of(box, law::behind), CHAIN, world.worldName());
  }

  /** K and n as the worlds' files state them; a batch's spread multiplies the whole chain. */
  private record PowerLaw(double k, double n) {
    static PowerLaw of(DemoWorld world) {
      return switch (world) {
        case WREN, WREN_DRIVER_REVERSED -> new PowerLaw(0.010, 0.68);
        case PLOVER -> new PowerLaw(0.012, 0.7);
        default -> new PowerLaw(0.007, 0.7);
      };
    }

    conewise.analysis.model.Inductance behind(Inductance chain) {
      double factor = chain.seriesHenry() / Inductance.lossy(k, n).seriesHenry();
      return conewise.analysis.model.Inductance.lossy(factor * k, n);
    }
  }

  /** The same box with a plain inductance in every driver. */
  private static Box plain(Box box) {
    List<Opening> openings =
        box.openings().stream()
            .map(
                each ->
                    each instanceof Opening.DriverOpening driver
                        ? new Opening.DriverOpening(
                            driver.name(),
                            driver.driver().with(COIL, driver.driver().coupling()),
                            driver.front(),
                            driver.rear())
                        : each)
            .toList();
    return new Box(box.air(), box.spaces(), openings, box.terminals(), box.closedLoops());
  }

  /** Coils of one driver have force factors alike: unlike ones would have unlike inductances. */
  @Test
  void bandpassWithAPassiveRadiatorAnIdleCoilAndAnUnlikePairAgrees() {
    Air cool = Air.at(12);
    Driver dual =
        new Driver(0.06, 4e-4, 1.6, 0.035, List.of(new Coil(3.4, 8), new Coil(3.5, 8)), COIL, 0.8);
    Driver small = new Driver(0.02, 7e-4, 1.1, 0.022, List.of(new Coil(5.9, 7)), COIL, 0);
    Box box =
        Box.in(cool)
            .space(Space.litres("back", 20).lined(cool, 25, 50))
            .space("before", 14)
            .opening(new Opening.DriverOpening("one", dual, "before", "back"))
            .opening(new Opening.DriverOpening("two", small, "back", Space.OUTSIDE))
            .opening(new Opening.PassiveRadiator("pr", 0.1, 6e-4, 2, 0.04, "outside", "before"))
            .vent("port", "before", 70, 30)
            .wired(
                Wiring.series(
                    Wiring.ohm(0.15),
                    Wiring.parallel(Wiring.coil("one", 1), Wiring.coil("two", 1))));
    assertAgrees(box, ModelOfBox.of(box), EXACT, "bandpass");
  }

  @Test
  void sharedChamberWithOneCoilReversedAgrees() {
    Driver dual =
        new Driver(0.05, 5e-4, 1.3, 0.03, List.of(new Coil(3.4, 8), new Coil(3.2, 8)), COIL, 0.9);
    Box box =
        Box.in(Air.ROOM)
            .space("main", 55)
            .driver("one", dual, "main")
            .driver("two", dual.withAddedMass(0.004), "main")
            .vent("port", "main", 33, 35)
            .wired(
                Wiring.series(
                    Wiring.parallel(Wiring.coil("one", 1), Wiring.coil("one", 2)),
                    Wiring.series(Wiring.coil("two", 1), Wiring.coil("two", 2))))
            .withCoilReversed("two", 2);
    assertAgrees(box, ModelOfBox.of(box), EXACT, "one coil reversed");
  }
}
