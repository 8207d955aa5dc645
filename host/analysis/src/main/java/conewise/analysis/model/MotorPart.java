package conewise.analysis.model;

import conewise.analysis.model.Driver.VoiceCoil;
import conewise.analysis.model.Elements.Power;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Quantity.Kind;
import java.util.List;

/**
 * The voice coils of one driver within the loops of the circuit.
 *
 * @param opening index of the driver among the openings
 * @param linked for each loop, the turns of all coils that its current runs through, with sign
 * @param resistive loops by loops: the coils' resistances over their mean
 * @param squared loops by loops: the coils' turns squared, each coil by itself
 * @param resistance index of the element: mean coil resistance
 * @param force index of the element: force factor over area of a coil of one turn
 * @param henry index of the element: plain inductance
 * @param lossy index of the element: lossy inductance
 * @param exponent index of the element: its exponent
 * @param coupling index of the element: the coils' coupling
 */
record MotorPart(
    int opening,
    LoopVector linked,
    LoopForm resistive,
    LoopForm squared,
    int resistance,
    int force,
    int henry,
    int lossy,
    int exponent,
    int coupling) {

  static MotorPart of(Mounted mounted, int opening, Loops loops, double bulk, Elements elements) {
    Driver driver = mounted.driver();
    String name = mounted.name();
    double mean = driver.meanCoilOhm();
    LoopVector linked = new LoopVector(new double[loops.count()]);
    LoopForm resistive = new LoopForm(loops.count());
    LoopForm squared = new LoopForm(loops.count());
    for (Loops.Leaf leaf : loops.leaves()) {
      if (leaf.part() instanceof Circuit.Coil coil && coil.driver().equals(name)) {
        VoiceCoil wire = driver.coils().get(coil.number() - 1);
        linked = linked.plus(coil.reversed() ? -wire.turns() : wire.turns(), leaf.current());
        resistive.add(wire.resistanceOhm() / mean, leaf.current());
        squared.add(wire.turns() * wire.turns(), leaf.current());
      }
    }
    int ohm = elements.quantity(name, Kind.COIL_RESISTANCE, mean);
    int fs = elements.quantity(name, Kind.RESONANCE, driver.resonanceHz());
    int vas = elements.quantity(name, Kind.EQUIVALENT_VOLUME, driver.equivalentVolumeM3());
    int qes = elements.quantity(name, Kind.ELECTRICAL_Q, driver.electricalQ());
    double turns = driver.turnsOfAll();
    // (Bl/S)^2 of all coils = w M R / Qes, R being that of all coils in series.
    double strength = Math.sqrt(bulk * driver.coils().size() / (2 * Math.PI)) / turns;
    Inductance inductance = driver.inductance();
    return new MotorPart(
        opening,
        linked,
        resistive,
        squared,
        elements.add(1, new Power(ohm, 1)),
        elements.add(
            strength,
            new Power(ohm, 0.5),
            new Power(fs, -0.5),
            new Power(vas, -0.5),
            new Power(qes, -0.5)),
        optional(elements, name, Kind.INDUCTANCE, inductance.henry()),
        optional(elements, name, Kind.LOSSY_INDUCTANCE, inductance.lossyOhm()),
        inductance.lossyOhm() > 0
            ? optional(elements, name, Kind.LOSSY_EXPONENT, inductance.exponent())
            : elements.add(inductance.exponent()),
        driver.coils().size() > 1 && !inductance.equals(Inductance.NONE)
            ? elements.add(
                1, new Power(elements.quantity(name, Kind.COUPLING, driver.coupling()), 1))
            : elements.add(driver.coupling()));
  }

  /** An element that is one quantity; where it is 0 the element is absent and has none. */
  private static int optional(Elements elements, String name, Kind kind, double value) {
    return value == 0
        ? elements.add(0)
        : elements.add(1, new Power(elements.quantity(name, kind, value), 1));
  }

  /** All motors of a box. */
  static List<MotorPart> all(BoxModel box, Loops loops, Elements elements) {
    return java.util.stream.IntStream.range(0, box.openings().size())
        .filter(i -> box.openings().get(i) instanceof Mounted)
        .mapToObj(
            i -> of((Mounted) box.openings().get(i), i, loops, box.air().bulkModulusPa(), elements))
        .toList();
  }
}
