package conewise.analysis.netlist;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A box in plain elements, by the impedance analogy (L. L. Beranek, Acoustics, 1954, ch. 3, from
 * memory): on the air's side a volt stands for a pascal and an ampere for a cubic metre a second.
 */
final class BoxCircuit {
  static final String PLUS = "plus";
  static final String MINUS = "minus";
  private static final String GROUND = "0";
  private static final double TURN = 2 * Math.PI;

  /** What stands for an open place in the circuit, and for a bridge, as the model has it. */
  private static final double GAP_OHM = 1e12;

  private static final double BRIDGE_OHM = 1e-6;

  /** Beside each space: a way for direct current, which solvers ask of every node. */
  private static final double NO_LEAK = 1e15;

  private final BoxModel box;
  private final Values values;
  private final Ladder ladder;
  private final double bulk;
  private final List<Part> parts = new ArrayList<>();
  private int counted;

  private BoxCircuit(BoxModel box, Values values, Ladder ladder) {
    this.box = box;
    this.values = values;
    this.ladder = ladder;
    bulk = box.air().bulkModulusPa();
  }

  /** The parts of a box between {@link #PLUS} and {@link #MINUS}. */
  static List<Part> parts(BoxModel box, Values values, Ladder ladder) {
    BoxCircuit circuit = new BoxCircuit(box, values, ladder);
    circuit.write();
    return circuit.parts;
  }

  private double value(String part, Kind kind) {
    return values.of(new Quantity(part, kind));
  }

  private void write() {
    box.spaces().forEach(this::space);
    for (int i = 0; i < box.openings().size(); i++) {
      opening(box.openings().get(i), "o" + (i + 1));
    }
    parts.add(new Part.Remark("the circuit between the terminals"));
    wire(box.circuit(), PLUS, MINUS);
  }

  private String air(String space) {
    for (int i = 0; i < box.spaces().size(); i++) {
      if (box.spaces().get(i).name().equals(space)) {
        return "s" + (i + 1);
      }
    }
    return GROUND;
  }

  /** A lining is a loss before the air's spring: R = 1/(w Q C) at the reference frequency. */
  private void space(Space space) {
    String node = air(space.name());
    double farad = value(space.name(), Kind.VOLUME) / bulk;
    parts.add(new Part.Remark("space " + space.name()));
    String spring = node;
    if (space.absorptionQ().isPresent()) {
      spring = node + "q";
      double q = value(space.name(), Kind.ABSORPTION_Q);
      double ohm = 1 / (TURN * Space.LOSS_REFERENCE_HZ * q * farad);
      parts.add(TwoPole.resistor(spring, node, spring, ohm));
    }
    parts.add(TwoPole.capacitor(node, spring, GROUND, farad));
    parts.add(TwoPole.resistor(node + "dc", spring, GROUND, NO_LEAK));
  }

  private void opening(Opening opening, String id) {
    String name = opening.name();
    String behind = air(opening.behind());
    String before = air(opening.before());
    if (opening instanceof Mounted mounted) {
      parts.add(new Part.Remark("driver " + name + ": cone, then its motor's force"));
      cone(mounted, id, behind, before);
    } else if (opening instanceof PassiveRadiator) {
      parts.add(new Part.Remark("passive radiator " + name));
      moving(name, id, behind, id + "c");
      parts.add(TwoPole.capacitor(id, id + "c", before, springOf(name)));
    } else if (opening instanceof Vent) {
      parts.add(new Part.Remark("vent " + name));
      double w = TURN * value(name, Kind.TUNING);
      double mass = bulk / (w * w * value(opening.behind(), Kind.VOLUME));
      parts.add(TwoPole.inductor(id, behind, id + "m", mass));
      parts.add(TwoPole.resistor(id, id + "m", before, w * mass / value(name, Kind.VENT_Q)));
    } else if (opening instanceof Leak) {
      parts.add(new Part.Remark("leak " + name));
      double farad = value(opening.behind(), Kind.VOLUME) / bulk;
      double ohm = value(name, Kind.LEAK_Q) / (TURN * Space.LOSS_REFERENCE_HZ * farad);
      parts.add(TwoPole.resistor(id, behind, before, ohm));
    }
  }

  private double springOf(String name) {
    return value(name, Kind.EQUIVALENT_VOLUME) / bulk;
  }

  /** Mass and loss of a cone. */
  private void moving(String name, String id, String from, String to) {
    double w = TURN * value(name, Kind.RESONANCE);
    double mass = 1 / (w * w * springOf(name));
    parts.add(TwoPole.inductor(id, from, id + "r", mass));
    parts.add(TwoPole.resistor(id, id + "r", to, w * mass / value(name, Kind.MECHANICAL_Q)));
  }

  private void cone(Mounted mounted, String id, String behind, String before) {
    String name = mounted.name();
    Driver driver = mounted.driver();
    parts.add(new Part.Meter(id, behind, id + "a"));
    String node = id + "a";
    List<Circuit.Coil> coils = coilsOf(name);
    for (int k = 0; k < coils.size(); k++) {
      String next = id + "f" + (k + 1);
      double gain = force(name, driver) * turns(driver, coils.get(k));
      parts.add(new Part.Follower(next, next, node, coilName(coils.get(k)), true, gain));
      node = next;
    }
    if (driver.addedMassKg() > 0) {
      double area = value(name, Kind.AREA);
      double mass = driver.addedMassKg() / (area * area);
      parts.add(TwoPole.inductor(id + "add", node, id + "add", mass));
      node = id + "add";
    }
    moving(name, id, node, id + "c");
    if (driver.creep() > 0) {
      double reference = TURN * value(name, Kind.RESONANCE);
      double creep = value(name, Kind.CREEP);
      parts.add(
          ladder.creepingSpring(id + "s", id + "c", before, springOf(name), creep, reference));
    } else {
      parts.add(TwoPole.capacitor(id, id + "c", before, springOf(name)));
    }
    common(mounted, id, coils);
  }

  /** The coils of a driver that the circuit names. */
  private List<Circuit.Coil> coilsOf(String driver) {
    return box.circuit().coils().stream().filter(coil -> coil.driver().equals(driver)).toList();
  }

  private String coilName(Circuit.Coil coil) {
    return idOf(coil.driver()) + "k" + coil.number();
  }

  private String idOf(String opening) {
    for (int i = 0; i < box.openings().size(); i++) {
      if (box.openings().get(i).name().equals(opening)) {
        return "o" + (i + 1);
      }
    }
    throw new IllegalArgumentException("no opening is named " + opening);
  }

  private static double turns(Driver driver, Circuit.Coil coil) {
    double turns = driver.coils().get(coil.number() - 1).turns();
    return coil.reversed() ? -turns : turns;
  }

  /** Force factor over area of a coil of one turn: (Bl/S)^2 of all coils = w M R / Qes. */
  private double force(String name, Driver driver) {
    double all = driver.coils().stream().mapToDouble(Driver.VoiceCoil::turns).sum();
    double ohm = driver.coils().size() * value(name, Kind.COIL_RESISTANCE);
    double massTimesAngular = 1 / (TURN * value(name, Kind.RESONANCE) * springOf(name));
    return Math.sqrt(massTimesAngular * ohm / value(name, Kind.ELECTRICAL_Q)) / all;
  }

  private boolean isCoupled(String name, Driver driver) {
    return coilsOf(name).size() > 1 && coupling(name, driver) > 0;
  }

  /** The model counts the coupling only where there is more than one coil. */
  private double coupling(String name, Driver driver) {
    boolean none = driver.inductance().henry() == 0 && driver.inductance().lossyOhm() == 0;
    return driver.coils().size() > 1 && !none ? value(name, Kind.COUPLING) : 0;
  }

  /** What the coils of a driver share: all their currents run through one inductance. */
  private void common(Mounted mounted, String id, List<Circuit.Coil> coils) {
    if (!isCoupled(mounted.name(), mounted.driver())) {
      return;
    }
    parts.add(new Part.Remark("what the coils of " + mounted.name() + " have in common"));
    for (Circuit.Coil coil : coils) {
      double gain = turns(mounted.driver(), coil);
      parts.add(new Part.Copy(coilName(coil), id + "x", coilName(coil), gain));
    }
    inductance(mounted, id + "x", id + "x", GROUND, coupling(mounted.name(), mounted.driver()));
  }

  /** A share of a driver's inductive impedance of one turn, plain part before the lossy one. */
  private void inductance(Mounted mounted, String id, String from, String to, double share) {
    String name = mounted.name();
    boolean plain = mounted.driver().inductance().henry() > 0;
    boolean lossy = mounted.driver().inductance().lossyOhm() > 0;
    String middle = plain && lossy ? id + "m" : to;
    if (plain) {
      parts.add(TwoPole.inductor(id, from, middle, share * value(name, Kind.INDUCTANCE)));
    }
    if (lossy) {
      double k = share * value(name, Kind.LOSSY_INDUCTANCE);
      double n = value(name, Kind.LOSSY_EXPONENT);
      parts.add(ladder.lossyInductance(id + "y", plain ? middle : from, to, k, n));
    }
  }

  private void wire(Circuit circuit, String from, String to) {
    if (circuit instanceof Circuit.Series series) {
      String node = from;
      for (int i = 0; i < series.parts().size(); i++) {
        String next = i == series.parts().size() - 1 ? to : "n" + ++counted;
        wire(series.parts().get(i), node, next);
        node = next;
      }
    } else if (circuit instanceof Circuit.Parallel parallel) {
      parallel.parts().forEach(part -> wire(part, from, to));
    } else if (circuit instanceof Circuit.Coil coil) {
      coil(coil, from, to);
    } else {
      double ohm =
          circuit instanceof Circuit.Resistance part
              ? value(part.name(), Kind.RESISTANCE)
              : circuit instanceof Circuit.Bridge ? BRIDGE_OHM : GAP_OHM;
      parts.add(TwoPole.resistor("e" + ++counted, from, to, ohm));
    }
  }

  private void coil(Circuit.Coil coil, String from, String to) {
    Mounted mounted = mounted(coil.driver());
    Driver driver = mounted.driver();
    String id = coilName(coil);
    double turns = turns(driver, coil);
    Driver.VoiceCoil wire = driver.coils().get(coil.number() - 1);
    double ohm =
        value(coil.driver(), Kind.COIL_RESISTANCE) * wire.resistanceOhm() / driver.meanCoilOhm();
    double coupled = isCoupled(coil.driver(), driver) ? coupling(coil.driver(), driver) : 0;
    boolean own =
        coupled < 1 && (driver.inductance().henry() > 0 || driver.inductance().lossyOhm() > 0);
    parts.add(
        new Part.Remark(
            "coil " + coil.number() + " of " + coil.driver() + (turns < 0 ? ", reversed" : "")));
    parts.add(new Part.Meter(id, from, id + "a"));
    parts.add(TwoPole.resistor(id, id + "a", id + "b", ohm));
    String node = own ? id + "d" : id + "b";
    if (own) {
      inductance(mounted, id, id + "b", node, (1 - coupled) * turns * turns);
    }
    if (coupled > 0) {
      String shared = idOf(coil.driver()) + "x";
      parts.add(new Part.Follower(id + "x", node, id + "e", shared, false, turns));
      node = id + "e";
    }
    double gain = force(coil.driver(), driver) * turns;
    parts.add(new Part.Follower(id, node, to, idOf(coil.driver()), true, gain));
  }

  private Mounted mounted(String name) {
    Optional<Mounted> found =
        box.drivers().stream().filter(each -> each.name().equals(name)).findFirst();
    return found.orElseThrow(() -> new IllegalArgumentException("no driver is named " + name));
  }
}
