package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.function.ToDoubleFunction;

/**
 * Curves of known boxes for fits of several sweeps, solved by the tests' own node equations, and
 * fits in which nothing is known beforehand: no tolerance of a plan stands in for what the sweeps
 * do not tell. The model is exact here, so no discrepancy is asked for.
 */
final class SweptTruth {
  static final long SEED = 3141;
  static final double NOISE = 0.003;
  static final double BULK = 1.204 * 343.2 * 343.2;
  static final double VOLUME = 0.050;
  static final double TUNING = 35;
  static final double VENT_Q = 45;
  static final double LEAK_Q = 12;
  static final double MASS = 0.055;
  static final double AREA = 0.033;
  static final double FS = 32;
  static final double QMS = 6;
  static final double QES = 0.45;
  static final double RE = 5.2;
  static final double LOSSY = 0.015;
  static final double EXPONENT = 0.7;

  static final double LINING_Q = 30;
  static final double ADDED = 0.05;

  /** One in two thousand normal draws lies further off. */
  static final double MOST_DEVIATIONS = 3.5;

  /** A box so large that its air has no stiffness left: free air. */
  static final double NO_BOX = 1e9;

  static NodalBox.Driver driver(double massKg, double fs) {
    NodalBox.Driver driver = new NodalBox.Driver();
    driver.mass = massKg;
    driver.compliance = 1 / (Math.pow(2 * Math.PI * fs, 2) * massKg);
    driver.area = AREA;
    driver.loss = 2 * Math.PI * fs * massKg / QMS;
    NodalBox.Coil coil = new NodalBox.Coil();
    coil.resistance = RE;
    coil.force = Math.sqrt(2 * Math.PI * fs * massKg * RE / QES);
    coil.lossyK = LOSSY;
    coil.lossyN = EXPONENT;
    coil.from = 1;
    coil.to = 0;
    driver.coils.add(coil);
    return driver;
  }

  static NodalBox box(double volume, boolean vented, NodalBox.Driver... drivers) {
    NodalBox box = new NodalBox();
    NodalBox.Space space = new NodalBox.Space();
    space.volume = volume;
    space.tuningHz = vented ? TUNING : 0;
    space.ventQuality = VENT_Q;
    // The quality of a leak is that of the box at 40 Hz; the hole is the same, vent open or closed.
    space.leakResistance =
        volume == NO_BOX ? 1e18 : LEAK_Q * BULK / (2 * Math.PI * Space.LOSS_REFERENCE_HZ * volume);
    box.spaces.add(space);
    box.drivers.addAll(List.of(drivers));
    return box;
  }

  static ImpedanceCurve curve(NodalBox box, int draw) {
    return box.curve(NodalBox.logarithmic(9.5, 400, 150), NOISE, new Random(SEED + draw));
  }

  static double vas(double massKg, double fs) {
    return BULK * AREA * AREA / (Math.pow(2 * Math.PI * fs, 2) * massKg);
  }

  static Driver stated(double factor) {
    return Driver.of(FS * factor, 5, 0.42, vas(MASS, FS) * 0.93, 1, 5)
        .withInductance(Inductance.lossy(0.02, EXPONENT), 0)
        .withArea(AREA);
  }

  static BoxModel plan(boolean vented, Space space) {
    List<Opening> openings = new ArrayList<>();
    openings.add(new Mounted("a", stated(1.06), "main", Space.OUTSIDE));
    openings.add(new Leak("leak", 15, "main", Space.OUTSIDE));
    if (vented) {
      openings.add(new Vent("vent", 37, 60, "main", Space.OUTSIDE));
    }
    return new BoxModel(Air.AT_20_CELSIUS, List.of(space), openings, Circuit.coil("a", 1));
  }

  static Unknown free(String part, Kind kind) {
    return Unknown.free(new Quantity(part, kind));
  }

  static List<Unknown> ofDriver(String name) {
    List<Unknown> list = new ArrayList<>();
    for (Kind kind :
        List.of(
            Kind.RESONANCE,
            Kind.MECHANICAL_Q,
            Kind.ELECTRICAL_Q,
            Kind.EQUIVALENT_VOLUME,
            Kind.COIL_RESISTANCE,
            Kind.LOSSY_INDUCTANCE)) {
      list.add(free(name, kind));
    }
    return list;
  }

  static List<Unknown> with(List<Unknown> list, Unknown... more) {
    List<Unknown> all = new ArrayList<>(list);
    all.addAll(List.of(more));
    return all;
  }

  static BoxFit fit(List<Unknown> unknowns, Sweep... sweeps) {
    Outcome<BoxFit> outcome = BoxFit.of(List.of(sweeps), unknowns, Discrepancy.NONE);
    assertTrue(outcome instanceof Found<BoxFit>, "seed " + SEED + ": " + outcome);
    return ((Found<BoxFit>) outcome).value();
  }

  /** A fitted value lies within so many of its own standard deviations of the truth. */
  static void assertTells(BoxFit fit, double truth, String part, Kind kind) {
    Quantity quantity = new Quantity(part, kind);
    Outcome<Estimate> outcome = fit.estimate(quantity);
    String where = "seed " + SEED + ", " + quantity + ": ";
    assertTrue(outcome instanceof Found<Estimate>, where + outcome);
    Estimate estimate = ((Found<Estimate>) outcome).value();
    double deviation = (estimate.interval().high() - estimate.value()) / BoxFit.COVERAGE_FACTOR;
    assertEquals(truth, estimate.value(), MOST_DEVIATIONS * deviation, where + estimate);
    assertTrue(estimate.relativeWidth() < 0.06, where + estimate);
  }

  static Estimate told(BoxFit fit, String name, ToDoubleFunction<Values> function) {
    Outcome<Estimate> outcome = fit.estimate(name, function);
    assertTrue(outcome instanceof Found<Estimate>, "seed " + SEED + ": " + outcome);
    return ((Found<Estimate>) outcome).value();
  }

  static String reason(BoxFit fit, String part, Kind kind) {
    Outcome<Estimate> outcome = fit.estimate(new Quantity(part, kind));
    assertTrue(outcome instanceof NoResult<Estimate>, "seed " + SEED + ": " + outcome);
    return ((NoResult<Estimate>) outcome).because();
  }

  static List<Set<String>> open(BoxFit fit) {
    return fit.openSets().stream().map(Set::copyOf).toList();
  }

  static List<Unknown> ofBox() {
    return with(
        ofDriver("a"),
        free("leak", Kind.LEAK_Q),
        free("vent", Kind.TUNING),
        free("vent", Kind.VENT_Q));
  }

  static Sweep swept(boolean vented, Space space) {
    NodalBox truth = box(VOLUME, vented, driver(MASS, FS));
    return new Sweep(plan(vented, space), curve(truth, vented ? 0 : 1));
  }
}
