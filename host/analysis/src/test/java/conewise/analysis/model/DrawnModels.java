package conewise.analysis.model;

import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Draws boxes of any structure: spaces, openings either way, coils and wiring. */
public final class DrawnModels {
  private DrawnModels() {}

  static double between(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  static Driver driver(Random random) {
    int coils = 1 + random.nextInt(3);
    List<Driver.VoiceCoil> wires = new ArrayList<>();
    for (int i = 0; i < coils; i++) {
      wires.add(new Driver.VoiceCoil(between(random, 2, 7), between(random, 0.8, 1.2)));
    }
    Driver driver =
        new Driver(
            between(random, 20, 60),
            between(random, 2, 9),
            between(random, 0.25, 0.8),
            between(random, 0.01, 0.2),
            wires,
            new Inductance(
                random.nextBoolean() ? between(random, 1e-4, 2e-3) : 0,
                random.nextInt(4) > 0 ? between(random, 0.002, 0.05) : 0,
                between(random, 0.5, 0.9)),
            between(random, 0.3, 0.98),
            random.nextBoolean() ? between(random, 0.02, 0.2) : 0,
            java.util.OptionalDouble.of(between(random, 0.01, 0.06)),
            random.nextInt(3) == 0 ? between(random, 0.01, 0.1) : 0);
    return driver;
  }

  /** A box of one to three spaces and one to four drivers, wired at random. */
  static BoxModel box(Random random) {
    List<Space> spaces = new ArrayList<>();
    List<Opening> openings = new ArrayList<>();
    int count = 1 + random.nextInt(3);
    for (int s = 0; s < count; s++) {
      Space space = new Space("s" + s, between(random, 0.01, 0.1));
      spaces.add(random.nextBoolean() ? space : space.lined(between(random, 5, 80)));
      String other = s == 0 || random.nextBoolean() ? Space.OUTSIDE : "s" + (s - 1);
      if (random.nextBoolean()) {
        openings.add(
            new Vent("v" + s, between(random, 20, 60), between(random, 5, 60), "s" + s, other));
      }
      if (random.nextBoolean()) {
        openings.add(new Leak("l" + s, between(random, 4, 40), "s" + s, Space.OUTSIDE));
      }
      if (random.nextInt(3) == 0) {
        openings.add(
            new PassiveRadiator(
                "p" + s,
                between(random, 10, 30),
                between(random, 3, 9),
                between(random, 0.02, 0.2),
                "s" + s,
                Space.OUTSIDE));
      }
    }
    List<Circuit> parts = new ArrayList<>();
    int drivers = 1 + random.nextInt(4);
    for (int d = 0; d < drivers; d++) {
      Driver driver = driver(random);
      String behind = "s" + random.nextInt(count);
      String before = "s" + random.nextInt(count);
      before = behind.equals(before) ? Space.OUTSIDE : before;
      boolean turned = random.nextBoolean();
      openings.add(
          new Mounted("d" + d, driver, turned ? before : behind, turned ? behind : before));
      for (int c = 1; c <= driver.coils().size(); c++) {
        parts.add(new Circuit.Coil("d" + d, c, random.nextBoolean()));
      }
    }
    return new BoxModel(Air.AT_20_CELSIUS, spaces, openings, wire(parts, random));
  }

  private static Circuit wire(List<Circuit> parts, Random random) {
    List<Circuit> left = new ArrayList<>(parts);
    left.add(new Circuit.Resistance("lead", between(random, 0.05, 0.5)));
    while (left.size() > 1) {
      Circuit a = left.remove(random.nextInt(left.size()));
      Circuit b = left.remove(random.nextInt(left.size()));
      left.add(random.nextBoolean() ? Circuit.series(a, b) : Circuit.parallel(a, b));
    }
    return left.get(0);
  }
}
