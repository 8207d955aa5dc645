package conewise.analysis.model;

import conewise.analysis.model.Elements.Power;
import conewise.analysis.model.Quantity.Kind;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * A box ready to be solved at any frequency: the equations of its loops, openings and spaces, in
 * the impedance analogy (voltage and pressure against current and flow; L. L. Beranek, Acoustics,
 * 1954, ch. 3, from memory). Immutable and safe for threads; each thread takes a {@link
 * NetworkSolver} of its own.
 */
public final class Network {

  /** A space by its elements; {@link MovingPart#NONE} for no absorption. */
  record Air(int compliance, int absorption) {}

  /** A resistance of the circuit: its element, and its current as a sum of loop currents. */
  record Resistor(int ohm, LoopVector current) {}

  private final Elements elements = new Elements();
  private final int loops;
  private final List<MotorPart> motors;
  private final List<MovingPart> moving;
  private final List<Air> spaces;
  private final List<Resistor> resistors;

  private Network(BoxModel box, Loops currents) {
    loops = currents.count();
    motors = MotorPart.all(box, currents, elements);
    moving = MovingPart.all(box, elements);
    double bulk = box.air().bulkModulusPa();
    spaces = box.spaces().stream().map(space -> air(space, bulk)).toList();
    resistors = currents.leaves().stream().filter(Network::isResistor).map(this::resistor).toList();
  }

  /**
   * The network of a box.
   *
   * @throws IllegalArgumentException when no current can pass between the terminals
   */
  public static Network of(BoxModel box) {
    return new Network(
        box,
        Loops.of(box.circuit())
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "no current can pass between the box's terminals: its circuit is open")));
  }

  private Air air(Space space, double bulk) {
    int volume = elements.quantity(space.name(), Kind.VOLUME, space.volumeM3());
    int compliance = elements.add(1 / bulk, new Power(volume, 1));
    if (space.absorptionQ().isEmpty()) {
      return new Air(compliance, MovingPart.NONE);
    }
    int q = elements.quantity(space.name(), Kind.ABSORPTION_Q, space.absorptionQ().getAsDouble());
    double factor = bulk / (2 * Math.PI * Space.LOSS_REFERENCE_HZ);
    return new Air(compliance, elements.add(factor, new Power(q, -1), new Power(volume, -1)));
  }

  private static boolean isResistor(Loops.Leaf leaf) {
    return leaf.part() instanceof Circuit.Resistance || leaf.part() instanceof Circuit.Bridge;
  }

  private Resistor resistor(Loops.Leaf leaf) {
    if (leaf.part() instanceof Circuit.Resistance part) {
      int ohm = elements.quantity(part.name(), Kind.RESISTANCE, part.ohm());
      return new Resistor(elements.add(1, new Power(ohm, 1)), leaf.current());
    }
    return new Resistor(elements.add(Loops.BRIDGE_OHM), leaf.current());
  }

  /** The numbers that may be moved, in the order that every array of values has. */
  public List<Quantity> quantities() {
    return elements.quantities();
  }

  /** Their values as the box states them, in their units. */
  public double[] nominal() {
    return elements.nominal();
  }

  /** A solver at given values of the quantities, for one thread. */
  public NetworkSolver solver(double[] values) {
    NetworkSolver solver = new NetworkSolver(this);
    solver.set(values);
    return solver;
  }

  /**
   * The impedance at the terminals with the values that the box states.
   *
   * @param frequencyHz at least 0
   * @return in ohm
   */
  public Complex impedance(double frequencyHz) {
    NetworkSolver solver = solver(nominal());
    solver.solve(frequencyHz);
    return new Complex(solver.resistanceOhm(), solver.reactanceOhm());
  }

  Elements elements() {
    return elements;
  }

  int loops() {
    return loops;
  }

  List<MotorPart> motors() {
    return motors;
  }

  List<MovingPart> moving() {
    return moving;
  }

  List<Air> spaces() {
    return spaces;
  }

  List<Resistor> resistors() {
    return resistors;
  }
}
