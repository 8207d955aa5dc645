package conewise.analysis.diagnosis;

import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Space;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** Where a cone goes, seen from outside, when a small direct voltage is put on the terminals. */
public enum Motion {
  OUT("moves out"),
  IN("moves in"),
  /** No current moves it; the others' air moves it a little, the other way. */
  HARDLY("hardly moves, or a little against the others");

  private final String words;

  Motion(String words) {
    this.words = words;
  }

  /** For people: "moves out". */
  public String words() {
    return words;
  }

  /** The other way; what hardly moves stays so. */
  Motion turned() {
    return this == OUT ? IN : this == IN ? OUT : HARDLY;
  }

  /** A motor that pushes with less than this share of what it should is taken for dead. */
  private static final double DEAD = 0.2;

  /**
   * What each cone does that can be seen from outside, the terminal marked + being positive: Ohm's
   * law for the currents, the way round of each coil and of each driver for the rest. By the
   * driver's name; a driver between two spaces is left out.
   */
  public static Map<String, Motion> of(BoxModel box) {
    Map<Coil, Double> currents = new LinkedHashMap<>();
    if (box.conducts()) {
      share(box, box.circuit(), 1, currents);
    }
    Map<String, Motion> motions = new LinkedHashMap<>();
    double most = 0;
    Map<String, Double> forces = new LinkedHashMap<>();
    for (Mounted mounted : box.drivers()) {
      double force = force(mounted, currents);
      forces.put(mounted.name(), force);
      most = Math.max(most, Math.abs(force));
    }
    for (Mounted mounted : box.drivers()) {
      double least = DEAD * most;
      visible(mounted, forces.get(mounted.name()), least)
          .ifPresent(motion -> motions.put(mounted.name(), motion));
    }
    return motions;
  }

  private static Optional<Motion> visible(Mounted mounted, double force, double least) {
    boolean coneOut = mounted.before().equals(Space.OUTSIDE);
    boolean magnetOut = mounted.behind().equals(Space.OUTSIDE);
    if (!coneOut && !magnetOut) {
      return Optional.empty();
    }
    if (Math.abs(force) <= least) {
      return Optional.of(HARDLY);
    }
    return Optional.of(force > 0 == coneOut ? OUT : IN);
  }

  /** Per ampere at the terminals, in turns: a seized cone has no motor to speak of. */
  private static double force(Mounted mounted, Map<Coil, Double> currents) {
    Driver driver = mounted.driver();
    double sum = 0;
    for (Map.Entry<Coil, Double> each : currents.entrySet()) {
      Coil coil = each.getKey();
      if (coil.driver().equals(mounted.name())) {
        double turns = driver.coils().get(coil.number() - 1).turns();
        sum += (coil.reversed() ? -1 : 1) * turns * each.getValue();
      }
    }
    return driver.electricalQ() >= DriverFaults.NO_MOTOR_Q ? 0 : sum;
  }

  private static void share(
      BoxModel box, Circuit circuit, double ampere, Map<Coil, Double> currents) {
    if (circuit instanceof Coil coil) {
      currents.put(coil, ampere);
    } else if (circuit instanceof Series series) {
      series.parts().forEach(part -> share(box, part, ampere, currents));
    } else if (circuit instanceof Parallel parallel) {
      double all = parallel.parts().stream().mapToDouble(part -> conductance(box, part)).sum();
      for (Circuit part : parallel.parts()) {
        share(box, part, all == 0 ? 0 : ampere * conductance(box, part) / all, currents);
      }
    }
  }

  private static double conductance(BoxModel box, Circuit circuit) {
    double ohm = DirectResistance.ohm(box, circuit);
    return 1 / Math.max(1e-9, ohm);
  }
}
