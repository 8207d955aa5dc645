package conewise.analysis.fit;

import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a fit of a planned box may move, and how far a built one usually is from its plan. Drivers
 * of one kind move together, and each by itself a little.
 */
public final class UsualUnknowns {
  /** Relative standard deviations of a driver about its datasheet (common practice: 10 to 20 %). */
  private static final double RESONANCE = 0.12;

  private static final double MECHANICAL_Q = 0.3;
  private static final double ELECTRICAL_Q = 0.15;
  private static final double EQUIVALENT_VOLUME = 0.15;
  private static final double COIL_RESISTANCE = 0.1;
  private static final double INDUCTANCE = 0.6;

  /** The same of a driver about others of its batch. */
  private static final double WITHIN_BATCH = 0.05;

  private static final double Q_WITHIN_BATCH = 0.15;
  private static final double COIL_WITHIN_BATCH = 0.02;

  private static final double CREEP = 0.06;
  private static final double LEAST_CREEP = -0.1;
  private static final double MOST_CREEP = 0.35;
  private static final double TUNING = 0.3;
  private static final double LOSS_Q = 0.7;
  private static final double RADIATOR = 0.15;

  /** What a driver has where its datasheet is silent. */
  private static final double USUAL_CREEP = 0.07;

  private static final double USUAL_EXPONENT = 0.7;
  private static final double USUAL_PLAIN_SHARE = 0.3;

  /** The frequency in rad/s at which shares of an inductance are meant: 200 Hz. */
  private static final double COIL_REFERENCE = 400 * Math.PI;

  /** Modulus of a coil's inductive impedance there, over its resistance, where nothing is known. */
  private static final double USUAL_COIL_RATIO = 0.4;

  private UsualUnknowns() {}

  /**
   * The same box with a creep and both parts of an inductance in each driver, of a usual size where
   * the box states none, so that a fit can move them.
   */
  public static BoxModel withUsualLosses(BoxModel box) {
    BoxModel complete = box;
    for (Mounted mounted : box.drivers()) {
      complete = complete.withDriver(mounted.name(), UsualUnknowns::completed);
    }
    return complete;
  }

  private static Driver completed(Driver driver) {
    Inductance stated = driver.inductance();
    boolean none = stated.equals(Inductance.NONE);
    double exponent = stated.lossyOhm() > 0 ? stated.exponent() : USUAL_EXPONENT;
    double atReference =
        none
            ? USUAL_COIL_RATIO * driver.meanCoilOhm()
            : stated.henry() * COIL_REFERENCE
                + stated.lossyOhm() * Math.pow(COIL_REFERENCE, exponent);
    double share =
        stated.henry() > 0 && stated.lossyOhm() > 0
            ? stated.henry() * COIL_REFERENCE / atReference
            : USUAL_PLAIN_SHARE;
    Inductance coil =
        new Inductance(
            share * atReference / COIL_REFERENCE,
            (1 - share) * atReference / Math.pow(COIL_REFERENCE, exponent),
            exponent);
    return driver
        .withInductance(coil, none && driver.coils().size() > 1 ? 0.8 : driver.coupling())
        .withCreep(driver.creep() > 0 ? driver.creep() : USUAL_CREEP);
  }

  /** The unknowns of a box; quantities that it does not have are left out. */
  public static List<Unknown> of(BoxModel box) {
    List<Unknown> list = new ArrayList<>();
    Map<Driver, List<String>> batches = new LinkedHashMap<>();
    box.drivers()
        .forEach(m -> batches.computeIfAbsent(m.driver(), key -> new ArrayList<>()).add(m.name()));
    batches.forEach((driver, names) -> addBatch(list, driver, names, box));
    for (Opening opening : box.openings()) {
      addOpening(list, opening);
    }
    box.spaces().stream()
        .filter(space -> space.absorptionQ().isPresent())
        .forEach(s -> list.add(Unknown.planned(LOSS_Q, new Quantity(s.name(), Kind.ABSORPTION_Q))));
    return list;
  }

  private static void addBatch(
      List<Unknown> list, Driver driver, List<String> names, BoxModel box) {
    list.add(Unknown.planned(RESONANCE, all(Kind.RESONANCE, names)));
    list.add(Unknown.planned(MECHANICAL_Q, all(Kind.MECHANICAL_Q, names)));
    list.add(Unknown.planned(ELECTRICAL_Q, all(Kind.ELECTRICAL_Q, names)));
    if (!box.spaces().isEmpty() || driver.addedMassKg() > 0) {
      list.add(Unknown.planned(EQUIVALENT_VOLUME, all(Kind.EQUIVALENT_VOLUME, names)));
    }
    list.add(Unknown.planned(COIL_RESISTANCE, all(Kind.COIL_RESISTANCE, names)));
    if (driver.inductance().henry() > 0) {
      list.add(Unknown.planned(INDUCTANCE, all(Kind.INDUCTANCE, names)));
    }
    if (driver.inductance().lossyOhm() > 0) {
      list.add(Unknown.planned(INDUCTANCE, all(Kind.LOSSY_INDUCTANCE, names)));
      list.add(Unknown.exponent(driver.inductance().exponent(), all(Kind.LOSSY_EXPONENT, names)));
    }
    if (driver.creep() > 0) {
      list.add(
          Unknown.planned(CREEP, all(Kind.CREEP, names))
              .between(LEAST_CREEP - driver.creep(), MOST_CREEP)
              .asInherent());
    }
    for (String name : names.subList(1, names.size())) {
      addWithinBatch(list, name, box);
    }
  }

  private static void addWithinBatch(List<Unknown> list, String name, BoxModel box) {
    list.add(within(WITHIN_BATCH, name, Kind.RESONANCE));
    list.add(within(Q_WITHIN_BATCH, name, Kind.MECHANICAL_Q));
    list.add(within(WITHIN_BATCH, name, Kind.ELECTRICAL_Q));
    if (!box.spaces().isEmpty()) {
      list.add(within(WITHIN_BATCH, name, Kind.EQUIVALENT_VOLUME));
    }
    list.add(within(COIL_WITHIN_BATCH, name, Kind.COIL_RESISTANCE));
  }

  private static Unknown within(double spread, String name, Kind kind) {
    return Unknown.planned(spread, new Quantity(name, kind))
        .named(kind.words() + " of " + name + " beside the others")
        .asInherent();
  }

  private static void addOpening(List<Unknown> list, Opening opening) {
    String name = opening.name();
    if (opening instanceof Opening.Vent) {
      list.add(Unknown.planned(TUNING, new Quantity(name, Kind.TUNING)));
      list.add(Unknown.planned(LOSS_Q, new Quantity(name, Kind.VENT_Q)));
    } else if (opening instanceof Opening.Leak) {
      list.add(Unknown.planned(LOSS_Q, new Quantity(name, Kind.LEAK_Q)));
    } else if (opening instanceof Opening.PassiveRadiator) {
      list.add(Unknown.planned(RADIATOR, new Quantity(name, Kind.RESONANCE)));
      list.add(Unknown.planned(RADIATOR, new Quantity(name, Kind.EQUIVALENT_VOLUME)));
      list.add(Unknown.planned(MECHANICAL_Q, new Quantity(name, Kind.MECHANICAL_Q)));
    }
  }

  private static Quantity[] all(Kind kind, List<String> names) {
    return names.stream().map(name -> new Quantity(name, kind)).toArray(Quantity[]::new);
  }
}
