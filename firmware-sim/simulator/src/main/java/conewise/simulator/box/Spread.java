package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

import conewise.simulator.box.Opening.DriverOpening;
import java.util.List;
import java.util.SplittableRandom;

/**
 * How far drivers of one type lie from each other: each property is drawn evenly from the interval
 * of plus or minus its share, by a seed.
 *
 * @param mass relative limit for the moving mass
 * @param compliance for the compliance of the suspension
 * @param loss for the mechanical loss
 * @param forceFactor for the force factor of all coils of a driver alike
 * @param resistance for the DC resistance of each coil
 * @param inductance for the inductance
 */
public record Spread(
    double mass,
    double compliance,
    double loss,
    double forceFactor,
    double resistance,
    double inductance) {
  /** Drivers that are all alike. */
  public static final Spread NONE = new Spread(0, 0, 0, 0, 0, 0);

  /** Checks that each share is between 0 and a half. */
  public Spread {
    for (double each : new double[] {mass, compliance, loss, forceFactor, resistance, inductance}) {
      require("spread of a driver", each, 0, 0.5, "times its value");
    }
  }

  /** Drivers of one batch: compliance and loss wander most. */
  public static Spread ofBatch() {
    return new Spread(0.015, 0.06, 0.10, 0.02, 0.015, 0.03);
  }

  /** Every property within the same share. */
  public static Spread of(double share) {
    return new Spread(share, share, share, share, share, share);
  }

  /** The same box with drivers drawn anew. */
  public Box applyTo(Box box, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Opening> openings =
        box.openings().stream().map(each -> drawn(each, random.split())).toList();
    return new Box(box.air(), box.spaces(), openings, box.terminals(), box.closedLoops());
  }

  private Opening drawn(Opening opening, SplittableRandom random) {
    return opening instanceof DriverOpening each
        ? new DriverOpening(each.name(), drawn(each.driver(), random), each.front(), each.rear())
        : opening;
  }

  private Driver drawn(Driver driver, SplittableRandom random) {
    double bl = near(random, forceFactor);
    List<Coil> coils =
        driver.coils().stream()
            .map(
                coil ->
                    new Coil(
                        coil.resistanceOhm() * near(random, resistance),
                        coil.forceFactorTm() * bl,
                        coil.turns()))
            .toList();
    return new Driver(
        driver.massKg() * near(random, mass),
        driver.complianceMPerN() * near(random, compliance),
        driver.lossNsPerM() * near(random, loss),
        driver.areaM2(),
        coils,
        driver.inductance().times(near(random, inductance)),
        driver.coupling());
  }

  private static double near(SplittableRandom random, double share) {
    return 1 + share * (2 * random.nextDouble() - 1);
  }
}
