package conewise.analysis.fit;

import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Space;
import java.util.List;
import java.util.Random;

/** Kinds of boxes for studies of coverage: a plan drawn at random, and what a fit may move. */
enum BoxKind {
  FREE_AIR,
  SEALED,
  VENTED,
  TWO_DRIVERS_VENTED,
  BANDPASS_FOURTH_ORDER,
  PASSIVE_RADIATOR;

  /** A plan. */
  BoxModel plan(Random r) {
    return UsualUnknowns.withUsualLosses(stated(r));
  }

  private BoxModel stated(Random r) {
    double alpha = between(r, 0.7, 3);
    double vas = between(r, 0.02, 0.15);
    double fs = between(r, 24, 50);
    double volume = vas / alpha;
    int coils = 1 + r.nextInt(2);
    double ohm = between(r, 2, 6);
    double exponent = between(r, 0.55, 0.8);
    // Inductive impedance at 200 Hz from a tenth to six tenths of the resistance.
    double lossy = between(r, 0.1, 0.6) * ohm / Math.pow(400 * Math.PI, exponent);
    Driver driver =
        Driver.of(fs, between(r, 3, 8), between(r, 0.3, 0.6), vas, coils, ohm)
            .withInductance(Inductance.lossy(lossy, exponent), 0.8);
    Space main = new Space("main", volume * (this == TWO_DRIVERS_VENTED ? 2 : 1));
    double tuning = fs * between(r, 0.75, 1.35);
    Vent vent = new Vent("vent", tuning, 60, "main", Space.OUTSIDE);
    Leak leak = new Leak("leak", between(r, 6, 20), "main", Space.OUTSIDE);
    Mounted a = new Mounted("a", driver, "main", Space.OUTSIDE);
    Circuit one = coils("a", coils);
    return switch (this) {
      case FREE_AIR -> BoxModel.freeAir(driver);
      case SEALED -> box(List.of(main), one, a, new Leak("leak", 30, "main", Space.OUTSIDE));
      case VENTED -> box(List.of(main), one, a, vent, leak);
      case TWO_DRIVERS_VENTED ->
          box(
              List.of(main),
              Circuit.parallel(one, coils("b", coils)),
              a,
              new Mounted("b", driver, "main", Space.OUTSIDE),
              vent,
              leak);
      case BANDPASS_FOURTH_ORDER ->
          box(
              List.of(new Space("rear", vas / between(r, 1, 3)), main),
              one,
              new Mounted("a", driver, "rear", "main"),
              new Vent(
                  "vent",
                  fs * Math.sqrt(1 + alpha) * between(r, 0.9, 1.2),
                  60,
                  "main",
                  Space.OUTSIDE),
              leak);
      case PASSIVE_RADIATOR ->
          box(
              List.of(main),
              one,
              a,
              new PassiveRadiator(
                  "radiator", fs * between(r, 0.35, 0.6), 6, vas * 1.5, "main", Space.OUTSIDE),
              leak);
    };
  }

  private static Circuit coils(String driver, int count) {
    return count == 1
        ? Circuit.coil(driver, 1)
        : Circuit.series(Circuit.coil(driver, 1), Circuit.coil(driver, 2));
  }

  private static BoxModel box(List<Space> spaces, Circuit circuit, Opening... openings) {
    return new BoxModel(Air.AT_20_CELSIUS, spaces, List.of(openings), circuit);
  }

  static double between(Random r, double low, double high) {
    return low + (high - low) * r.nextDouble();
  }
}
