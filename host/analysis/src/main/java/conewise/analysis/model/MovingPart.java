package conewise.analysis.model;

import conewise.analysis.model.Elements.Power;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity.Kind;
import java.util.ArrayList;
import java.util.List;

/**
 * The acoustical impedance of an opening: a mass, a loss and a compliance in series, by the indices
 * of their elements; {@link #NONE} where there is none.
 *
 * @param behind index of the space behind, {@link #NONE} for the outside
 * @param before index of the space before, {@link #NONE} for the outside
 * @param mass acoustic mass in kg/m4
 * @param addedMass a second mass in series with it
 * @param loss acoustic loss in Pa s/m3
 * @param compliance acoustic compliance in m3/Pa
 * @param creep the compliance's creep
 * @param reference index of the frequency in hertz at which a compliance with creep is the one
 *     stated
 */
record MovingPart(
    int behind,
    int before,
    int mass,
    int addedMass,
    int loss,
    int compliance,
    int creep,
    int reference) {

  static final int NONE = -1;
  private static final double TURN = 2 * Math.PI;

  static List<MovingPart> all(BoxModel box, Elements elements) {
    List<MovingPart> list = new ArrayList<>();
    for (Opening opening : box.openings()) {
      list.add(of(opening, box, elements));
    }
    return list;
  }

  private static MovingPart of(Opening opening, BoxModel box, Elements elements) {
    int behind = space(box, opening.behind());
    int before = space(box, opening.before());
    double bulk = box.air().bulkModulusPa();
    String name = opening.name();
    if (opening instanceof Mounted mounted) {
      return cone(mounted, behind, before, bulk, elements);
    }
    if (opening instanceof PassiveRadiator radiator) {
      int fp = elements.quantity(name, Kind.RESONANCE, radiator.resonanceHz());
      int vap = elements.quantity(name, Kind.EQUIVALENT_VOLUME, radiator.equivalentVolumeM3());
      int q = elements.quantity(name, Kind.MECHANICAL_Q, radiator.mechanicalQ());
      return new MovingPart(
          behind,
          before,
          elements.add(bulk / (TURN * TURN), new Power(fp, -2), new Power(vap, -1)),
          NONE,
          elements.add(bulk / TURN, new Power(fp, -1), new Power(vap, -1), new Power(q, -1)),
          elements.add(1 / bulk, new Power(vap, 1)),
          NONE,
          NONE);
    }
    int volume = reference(opening, box, elements);
    if (opening instanceof Vent vent) {
      int tuning = elements.quantity(name, Kind.TUNING, vent.tuningHz());
      int q = elements.quantity(name, Kind.VENT_Q, vent.quality());
      return new MovingPart(
          behind,
          before,
          elements.add(bulk / (TURN * TURN), new Power(tuning, -2), new Power(volume, -1)),
          NONE,
          elements.add(bulk / TURN, new Power(tuning, -1), new Power(volume, -1), new Power(q, -1)),
          NONE,
          NONE,
          NONE);
    }
    int q = elements.quantity(name, Kind.LEAK_Q, ((Leak) opening).quality());
    double factor = bulk / (TURN * Space.LOSS_REFERENCE_HZ);
    return new MovingPart(
        behind,
        before,
        NONE,
        NONE,
        elements.add(factor, new Power(q, 1), new Power(volume, -1)),
        NONE,
        NONE,
        NONE);
  }

  private static MovingPart cone(
      Mounted mounted, int behind, int before, double bulk, Elements elements) {
    Driver driver = mounted.driver();
    String name = mounted.name();
    int fs = elements.quantity(name, Kind.RESONANCE, driver.resonanceHz());
    int vas = elements.quantity(name, Kind.EQUIVALENT_VOLUME, driver.equivalentVolumeM3());
    int qms = elements.quantity(name, Kind.MECHANICAL_Q, driver.mechanicalQ());
    return new MovingPart(
        behind,
        before,
        elements.add(bulk / (TURN * TURN), new Power(fs, -2), new Power(vas, -1)),
        addedMass(name, driver, elements),
        elements.add(bulk / TURN, new Power(fs, -1), new Power(vas, -1), new Power(qms, -1)),
        elements.add(1 / bulk, new Power(vas, 1)),
        driver.creep() > 0
            ? elements.add(1, new Power(elements.quantity(name, Kind.CREEP, driver.creep()), 1))
            : NONE,
        driver.creep() > 0 ? elements.add(1, new Power(fs, 1)) : NONE);
  }

  private static int addedMass(String name, Driver driver, Elements elements) {
    if (driver.addedMassKg() == 0) {
      return NONE;
    }
    int area = elements.quantity(name, Kind.AREA, driver.areaM2().orElseThrow());
    return elements.add(driver.addedMassKg(), new Power(area, -2));
  }

  private static int space(BoxModel box, String name) {
    for (int i = 0; i < box.spaces().size(); i++) {
      if (box.spaces().get(i).name().equals(name)) {
        return i;
      }
    }
    return NONE;
  }

  /** The volume that a vent's tuning or a leak's quality refers to. */
  private static int reference(Opening opening, BoxModel box, Elements elements) {
    int index = space(box, opening.behind());
    if (index == NONE) {
      throw new IllegalArgumentException(
          opening.name() + " has the outside behind it; turn it round so that a space is there");
    }
    Space space = box.spaces().get(index);
    return elements.quantity(space.name(), Kind.VOLUME, space.volumeM3());
  }
}
