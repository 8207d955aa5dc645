package conewise.jig.step;

import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.Microphone;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.BoxBuilder;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Inductance;
import conewise.simulator.box.Opening.DriverOpening;
import conewise.simulator.box.Space;
import conewise.simulator.box.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * A drawn box and what its cones must do, by the signs that it was built with alone.
 *
 * @param box the box
 * @param motions by driver: +1 its outer side sets out outwards, -1 inwards, 0 no current moves it
 */
record StepBoxes(Box box, Map<String, Integer> motions) {

  /** Two 8-inch drivers in sealed spaces of their own, the right one reversed. */
  static StepBoxes apart() {
    Driver driver = Driver.ofParameters(Air.ROOM, 40, 4, 0.5, 25, 0.0215, 6, 1);
    Box box =
        Box.in(Air.ROOM)
            .space("upper", 20)
            .space("lower", 20)
            .driver("d0", driver, "upper")
            .driver("d1", driver, "lower")
            .wired(
                new Wiring.Parallel(
                    List.of(
                        Wiring.coil("d0", 1),
                        new Wiring.CoilLeads("d1", 1, true, Wiring.CoilState.SOUND))));
    return new StepBoxes(box, Map.of("d0", 1, "d1", -1));
  }

  /** One to four drivers, in one space or one each, sealed or vented, some reversed or dead. */
  static StepBoxes draw(SplittableRandom random, boolean mayBeDead) {
    int count = random.nextInt(1, 5);
    boolean shared = random.nextBoolean();
    Driver driver = driver(random);
    double litres = random.nextDouble(400, 2000) * 0.05 * (shared ? count : 1);
    BoxBuilder builder = Box.in(Air.ROOM);
    boolean vented = random.nextBoolean();
    for (int k = 0; k < (shared ? 1 : count); k++) {
      builder.space("space" + k, litres);
      if (vented) {
        builder.vent("vent" + k, "space" + k, random.nextDouble(25, 60), 40);
      }
      builder.leak("leak" + k, "space" + k, 15, 40);
    }
    Map<String, Integer> motions = new TreeMap<>();
    List<Wiring> coils = new ArrayList<>();
    int dead = mayBeDead && count > 1 && random.nextInt(3) == 0 ? random.nextInt(count) : -1;
    for (int k = 0; k < count; k++) {
      String name = "d" + k;
      String space = "space" + (shared ? 0 : k);
      boolean magnetOut = random.nextInt(4) == 0;
      boolean reversed = random.nextInt(3) == 0;
      builder.opening(
          magnetOut
              ? new DriverOpening(name, driver, space, Space.OUTSIDE)
              : new DriverOpening(name, driver, Space.OUTSIDE, space));
      Wiring.CoilState state = k == dead ? Wiring.CoilState.OPEN : Wiring.CoilState.SOUND;
      coils.add(new Wiring.CoilLeads(name, 1, reversed, state));
      motions.put(name, k == dead ? 0 : magnetOut == reversed ? 1 : -1);
    }
    return new StepBoxes(builder.wired(new Wiring.Parallel(coils)), motions);
  }

  private static Driver driver(SplittableRandom random) {
    double area = random.nextDouble(0.008, 0.09);
    double fs = random.nextDouble(22, 65);
    // A 12-inch driver of 500 cm2 has some 40 to 150 litres (common practice).
    double vas = random.nextDouble(800, 3000) * area;
    return Driver.ofParameters(
            Air.ROOM,
            fs,
            random.nextDouble(3, 10),
            random.nextDouble(0.3, 0.9),
            vas,
            area,
            random.nextDouble(3, 7),
            1)
        .with(Inductance.lossy(random.nextDouble(0.003, 0.02), random.nextDouble(0.6, 0.8)), 0);
  }

  /**
   * The distance of cones in one wall that touch but for their frames: 2.4 radii; of four in a
   * square the three others together count like three at 3 / (2 / 2.4 + 1 / 3.4) = 2.66 radii.
   */
  double neighboursM() {
    double radii = motions.size() > 3 ? 2.66 : 2.4;
    double area =
        box.openings().stream()
            .filter(each -> each instanceof DriverOpening)
            .mapToDouble(each -> ((DriverOpening) each).driver().areaM2())
            .max()
            .orElseThrow();
    return radii * Math.sqrt(area / Math.PI);
  }

  /** A jig with a microphone before a driver. */
  JigImperfections jig(String driver, Microphone microphone, double distanceM) {
    return JigImperfections.nominal()
        .with(microphone.before(driver, distanceM).withOthersAt(neighboursM()));
  }
}
