package conewise.simulator.box;

import conewise.simulator.box.Opening.DriverOpening;
import conewise.simulator.box.Opening.Leak;
import conewise.simulator.box.Opening.PassiveRadiator;
import conewise.simulator.box.Opening.Vent;
import conewise.simulator.box.Wiring.CoilLeads;
import conewise.simulator.dynamics.EquationSheet;
import conewise.simulator.dynamics.Expression;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The differential equations of a box behind a source of voltage: Newton's law for each opening,
 * the gas law for each space and the rule of voltages for each loop of current. A coil's back
 * voltage is Bl x velocity and its force Bl x current.
 */
public final class BoxEquations {
  /**
   * A voltage of the wiring that comes from elsewhere, and the input that stands for it.
   *
   * @param input its name on the sheet
   * @param source what it is
   */
  public record Foreign(String input, Wiring.ForeignVoltage source) {}

  private final EquationSheet sheet;
  private final Box box;
  private final Map<String, Expression> velocity = new HashMap<>();
  private final Map<String, Expression> force = new HashMap<>();
  private final Map<String, Expression> flowIn = new HashMap<>();
  private final Map<String, Expression> pressure = new HashMap<>();
  private final Map<Expression, double[]> charges = new LinkedHashMap<>();
  private final List<Foreign> foreign = new ArrayList<>();
  private Expression current = Expression.ZERO;
  private Expression acceleration = Expression.ZERO;

  private BoxEquations(EquationSheet sheet, Box box) {
    this.sheet = sheet;
    this.box = box;
  }

  /**
   * Writes the equations of a box onto a sheet.
   *
   * @param sourceVolt the voltage that drives the loop
   * @param before what lies in the loop between the source and the box; the box is added behind it
   *     by this function
   */
  public static BoxEquations write(
      EquationSheet sheet, Expression sourceVolt, Before before, Box box) {
    BoxEquations equations = new BoxEquations(sheet, box);
    equations.declareMotion();
    equations.writeSpaces();
    equations.writeCircuit(sourceVolt, before.around(box.terminals()));
    equations.writeMotion();
    return equations;
  }

  /** Puts what belongs to the bench around the wiring of a box. */
  @FunctionalInterface
  public interface Before {
    /** Returns the whole loop that the source drives. */
    Wiring around(Wiring box);
  }

  /** The current out of the source. */
  public Expression current() {
    return current;
  }

  /** The summed acceleration of volume pushed to the outside, in m3/s2. */
  public Expression acceleration() {
    return acceleration;
  }

  /**
   * What stands before a cone, over the density of the air: the near field of a flat piston in a
   * wall on its axis, and each other opening to the outside as a small source in that wall.
   *
   * @param driver whose outer side is meant, cone or magnet
   * @param distanceM from it, along its axis
   * @param othersM from every other opening
   * @throws IllegalArgumentException if no such driver can be reached from outside
   */
  public Expression nearField(String driver, double distanceM, double othersM) {
    Expression sum = Expression.ZERO;
    boolean found = false;
    for (Opening opening : box.openings()) {
      boolean front = opening.front().equals(Space.OUTSIDE);
      if (opening.name().equals(driver)
          && opening instanceof DriverOpening
          && (front || opening.rear().equals(Space.OUTSIDE))) {
        double radiusSquared = area(opening) / Math.PI;
        double reach = Math.sqrt(distanceM * distanceM + radiusSquared) - distanceM;
        Expression rate = sheet.derivativeOf(velocity.get(driver));
        sum = sum.plus(front ? reach : -reach, rate);
        found = true;
      } else {
        sum = sum.plus(1 / (2 * Math.PI * othersM), pushedOut(opening));
      }
    }
    if (!found) {
      throw new IllegalArgumentException(
          "The microphone is before \"" + driver + "\"; no driver of that name faces the outside.");
    }
    return sum;
  }

  /** The voltages that come from elsewhere, in the order of their inputs. */
  public List<Foreign> foreign() {
    return List.copyOf(foreign);
  }

  private void declareMotion() {
    for (Opening opening : box.openings()) {
      Expression speed = sheet.state(opening.name() + " velocity");
      velocity.put(opening.name(), speed);
      double area = area(opening);
      flowIn.merge(opening.front(), speed.times(area), Expression::plus);
      flowIn.merge(opening.rear(), speed.times(-area), Expression::plus);
    }
  }

  private void writeSpaces() {
    pressure.put(Space.OUTSIDE, Expression.ZERO);
    for (Space space : box.spaces()) {
      Expression in = flowIn.getOrDefault(space.name(), Expression.ZERO);
      Expression volume = sheet.state(space.name() + " inflow");
      sheet.derivative(volume, in);
      pressure.put(
          space.name(),
          compressed(space, volume)
              .times(1 / space.complianceM3PerPa(box.air()))
              .plus(space.absorptionPaSPerM3(), in));
    }
  }

  /** What of the volume that flowed in presses on the air: fibres that cool it make room. */
  private Expression compressed(Space space, Expression inflow) {
    HeatExchange heat = space.heat();
    if (heat.gain() == 0) {
      return inflow;
    }
    Expression room = sheet.state(space.name() + " room");
    Expression pressed = inflow.plus(-1, room);
    sheet.derivative(
        room, pressed.times(heat.gain()).plus(-1, room).times(1 / heat.settlingSeconds()));
    return pressed;
  }

  private void writeCircuit(Expression sourceVolt, Wiring terminals) {
    Circuit circuit = new Circuit(terminals, box.closedLoops());
    LoopEquations equations = new LoopEquations(sheet, circuit.loops());
    if (!circuit.terminalsOpen()) {
      double[] main = new double[circuit.loops()];
      main[0] = 1;
      equations.addBack(main, -1, sourceVolt);
    }
    Map<String, List<Circuit.Leaf>> coils = new HashMap<>();
    for (Circuit.Leaf leaf : circuit.leaves()) {
      write(leaf, equations, coils);
    }
    for (Opening opening : box.openings()) {
      if (opening instanceof DriverOpening driver && coils.containsKey(driver.name())) {
        writeInductance(driver.driver(), coils.get(driver.name()), equations);
      }
    }
    Expression[] loop = equations.solve();
    charges.forEach((charge, row) -> sheet.derivative(charge, LoopEquations.sum(row, loop)));
    if (!circuit.terminalsOpen()) {
      current = loop[0];
    }
    coils.forEach((name, leaves) -> force.put(name, force(leaves, loop)));
  }

  private void write(
      Circuit.Leaf leaf, LoopEquations equations, Map<String, List<Circuit.Leaf>> coils) {
    double[] row = leaf.loops();
    if (leaf.part() instanceof Wiring.Resistance part) {
      equations.addResistance(part.ohm(), row);
    } else if (leaf.part() instanceof Wiring.Link) {
      equations.addResistance(Wiring.Link.OHM, row);
    } else if (leaf.part() instanceof Wiring.Inductor part) {
      equations.addInductance(part.henry(), row);
    } else if (leaf.part() instanceof Wiring.Capacitor part) {
      Expression charge = sheet.state("charge" + charges.size());
      charges.put(charge, row);
      equations.addResistance(part.seriesOhm(), row);
      equations.addBack(row, 1 / part.farad(), charge);
    } else if (leaf.part() instanceof Wiring.ForeignVoltage part) {
      String name = "foreign" + foreign.size();
      equations.addResistance(part.sourceOhm(), row);
      equations.addBack(row, 1, sheet.input(name));
      foreign.add(new Foreign(name, part));
    } else if (leaf.part() instanceof CoilLeads part) {
      Coil coil = coil(part);
      equations.addResistance(coil.resistanceOhm(), row);
      equations.addBack(row, coil.forceFactorTm(), velocity.get(part.driver()));
      coils.computeIfAbsent(part.driver(), key -> new ArrayList<>()).add(leaf);
    }
  }

  private static void writeInductance(
      Driver driver, List<Circuit.Leaf> leaves, LoopEquations equations) {
    double[] linked = new double[leaves.get(0).loops().length];
    for (Circuit.Leaf leaf : leaves) {
      double turns = driver.coils().get(((CoilLeads) leaf.part()).coil() - 1).turns();
      double[] own = leaf.loops().clone();
      for (int k = 0; k < own.length; k++) {
        own[k] *= turns;
        linked[k] += own[k];
      }
      equations.addInductance(driver.inductance(), 1 - driver.coupling(), own);
    }
    equations.addInductance(driver.inductance(), driver.coupling(), linked);
  }

  private Expression force(List<Circuit.Leaf> leaves, Expression[] loop) {
    Expression sum = Expression.ZERO;
    for (Circuit.Leaf leaf : leaves) {
      double forceFactor = coil((CoilLeads) leaf.part()).forceFactorTm();
      sum = sum.plus(forceFactor, LoopEquations.sum(leaf.loops(), loop));
    }
    return sum;
  }

  private Coil coil(CoilLeads leads) {
    for (Opening opening : box.openings()) {
      if (opening instanceof DriverOpening driver && driver.name().equals(leads.driver())) {
        return driver.driver().coils().get(leads.coil() - 1);
      }
    }
    throw new IllegalStateException("No driver is called " + leads.driver());
  }

  private void writeMotion() {
    for (Opening opening : box.openings()) {
      Expression speed = velocity.get(opening.name());
      double area = area(opening);
      Expression sum =
          force
              .getOrDefault(opening.name(), Expression.ZERO)
              .plus(area, pressure.get(opening.rear()))
              .plus(-area, pressure.get(opening.front()))
              .plus(-loss(opening), speed);
      double compliance = compliance(opening);
      if (compliance > 0) {
        Expression place = sheet.state(opening.name() + " place");
        sheet.derivative(place, speed);
        sum = sum.plus(-1 / compliance, place);
      }
      sheet.derivative(speed, sum.times(1 / mass(opening)));
    }
    acceleration =
        box.openings().stream().map(this::pushedOut).reduce(Expression.ZERO, Expression::plus);
  }

  private Expression pushedOut(Opening opening) {
    Expression rate = sheet.derivativeOf(velocity.get(opening.name()));
    int ends =
        (opening.front().equals(Space.OUTSIDE) ? 1 : 0)
            - (opening.rear().equals(Space.OUTSIDE) ? 1 : 0);
    return rate.times(ends * area(opening));
  }

  private static double area(Opening opening) {
    if (opening instanceof DriverOpening driver) {
      return driver.driver().areaM2();
    }
    return opening instanceof PassiveRadiator radiator ? radiator.areaM2() : 1;
  }

  private static double mass(Opening opening) {
    if (opening instanceof DriverOpening driver) {
      return driver.driver().massKg();
    } else if (opening instanceof PassiveRadiator radiator) {
      return radiator.massKg();
    } else if (opening instanceof Vent vent) {
      return vent.massKgPerM4();
    }
    return ((Leak) opening).massKgPerM4();
  }

  private static double loss(Opening opening) {
    if (opening instanceof DriverOpening driver) {
      return driver.driver().lossNsPerM();
    } else if (opening instanceof PassiveRadiator radiator) {
      return radiator.lossNsPerM();
    } else if (opening instanceof Vent vent) {
      return vent.lossPaSPerM3();
    }
    return ((Leak) opening).resistancePaSPerM3();
  }

  private static double compliance(Opening opening) {
    if (opening instanceof DriverOpening driver) {
      return driver.driver().complianceMPerN();
    }
    return opening instanceof PassiveRadiator radiator ? radiator.complianceMPerN() : 0;
  }
}
