package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.fit.Sweep;
import conewise.analysis.fit.Unknown;
import conewise.analysis.fit.UsualUnknowns;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/**
 * A bare driver, measured in free air, and once more with a known mass on its cone, in a closed box
 * of known volume, or both. All sweeps are fitted together. Nothing of the driver need be known
 * beforehand. Immutable; each {@code with} gives a new one.
 */
public final class DriverMeasurement {
  private static final String NAME = "driver";
  private static final String BOX = "box";
  private static final String LEAK = "leak of the box";

  /** Stands in where no area is known; masses found with it do not depend on it. */
  private static final double ANY_AREA_M2 = 0.02;

  private static final double USUAL_LEAK_Q = 40;

  private final ImpedanceCurve freeAir;
  private final int coils;
  private final OptionalDouble areaM2;
  private final OptionalDouble massKg;
  private final List<Loaded> loaded;
  private final List<Boxed> boxed;

  private record Loaded(double kilogram, ImpedanceCurve curve) {}

  private record Boxed(double volumeM3, ImpedanceCurve curve) {}

  private DriverMeasurement(
      ImpedanceCurve freeAir,
      int coils,
      OptionalDouble areaM2,
      OptionalDouble massKg,
      List<Loaded> loaded,
      List<Boxed> boxed) {
    this.freeAir = freeAir;
    this.coils = coils;
    this.areaM2 = areaM2;
    this.massKg = massKg;
    this.loaded = loaded;
    this.boxed = boxed;
  }

  /**
   * A driver in free air.
   *
   * @param coils how many like voice coils it has, in series while it was swept
   */
  public static DriverMeasurement freeAir(ImpedanceCurve curve, int coils) {
    return new DriverMeasurement(
        curve, coils, OptionalDouble.empty(), OptionalDouble.empty(), List.of(), List.of());
  }

  /** With a mass stuck on the cone, in kilogram; about as much as Mms tells most. */
  public DriverMeasurement withAddedMass(double kilogram, ImpedanceCurve curve) {
    List<Loaded> more = new ArrayList<>(loaded);
    more.add(new Loaded(kilogram, curve));
    return new DriverMeasurement(freeAir, coils, areaM2, massKg, List.copyOf(more), boxed);
  }

  /** In a closed box of known net volume, in cubic metres. */
  public DriverMeasurement withBox(double volumeM3, ImpedanceCurve curve) {
    List<Boxed> more = new ArrayList<>(boxed);
    more.add(new Boxed(volumeM3, curve));
    return new DriverMeasurement(freeAir, coils, areaM2, massKg, loaded, List.copyOf(more));
  }

  /** With the cone's area known, in square metres: cone and half the surround, common practice. */
  public DriverMeasurement withArea(double squareMetres) {
    return new DriverMeasurement(
        freeAir, coils, OptionalDouble.of(squareMetres), massKg, loaded, boxed);
  }

  /** With the moving mass known, in kilogram, air load included. */
  public DriverMeasurement withMovingMass(double kilogram) {
    return new DriverMeasurement(
        freeAir, coils, areaM2, OptionalDouble.of(kilogram), loaded, boxed);
  }

  /**
   * A driver that was fitted.
   *
   * @param fit the fit; free air is its first sweep
   * @param figures the parameters
   */
  public record Fitted(BoxFit fit, DriverFigures figures) {}

  /** The parameters, or why the sweeps could not be fitted. */
  public Outcome<DriverFigures> figures() {
    return fitted().map(Fitted::figures);
  }

  /** The parameters with the fit that they come from, or why the sweeps could not be fitted. */
  public Outcome<Fitted> fitted() {
    Outcome<Driver> guess = FirstGuess.of(freeAir, coils);
    if (!(guess instanceof Found<Driver> found)) {
      return Outcome.none(((NoResult<Driver>) guess).because());
    }
    Driver driver = found.value().withArea(areaM2.orElse(ANY_AREA_M2));
    List<Sweep> sweeps = sweeps(driver);
    Outcome<BoxFit> fit = BoxFit.of(sweeps, unknowns(sweeps));
    return fit.map(each -> new Fitted(each, figures(each, sweeps.get(0).model().driver(NAME))));
  }

  private List<Sweep> sweeps(Driver driver) {
    List<Sweep> sweeps = new ArrayList<>();
    sweeps.add(new Sweep(complete(BoxModel.freeAir(driver)), freeAir));
    for (Loaded each : loaded) {
      Driver heavy = driver.withAddedMass(each.kilogram());
      sweeps.add(new Sweep(complete(BoxModel.freeAir(heavy)), each.curve()));
    }
    for (int i = 0; i < boxed.size(); i++) {
      String name = BOX + (i == 0 ? "" : " " + (i + 1));
      BoxModel box =
          new BoxModel(
              Air.AT_20_CELSIUS,
              List.of(new Space(name, boxed.get(i).volumeM3())),
              List.of(
                  new Mounted(NAME, driver, name, Space.OUTSIDE),
                  new Leak(
                      LEAK + (i == 0 ? "" : " " + (i + 1)), USUAL_LEAK_Q, name, Space.OUTSIDE)),
              BoxModel.freeAir(driver).circuit());
      sweeps.add(new Sweep(complete(box), boxed.get(i).curve()));
    }
    return sweeps;
  }

  private static BoxModel complete(BoxModel box) {
    return UsualUnknowns.withUsualLosses(box);
  }

  /** Nothing is planned of a bare driver: only its coil's form, its creep and leaks are usual. */
  private List<Unknown> unknowns(List<Sweep> sweeps) {
    List<Unknown> list = new ArrayList<>();
    for (Sweep sweep : sweeps) {
      for (Unknown usual : UsualUnknowns.of(sweep.model())) {
        Quantity first = usual.moves().get(0);
        if (list.stream().noneMatch(each -> each.moves().contains(first))) {
          list.add(isFree(first.kind()) ? Unknown.free(first) : usual);
        }
      }
    }
    if (!loaded.isEmpty() && !boxed.isEmpty() && areaM2.isEmpty()) {
      list.add(Unknown.free(new Quantity(NAME, Kind.AREA)));
    }
    return list;
  }

  private static boolean isFree(Kind kind) {
    return switch (kind) {
      case RESONANCE, MECHANICAL_Q, ELECTRICAL_Q, EQUIVALENT_VOLUME, COIL_RESISTANCE -> true;
      default -> false;
    };
  }

  private DriverFigures figures(BoxFit fit, Driver driver) {
    DriverFunctions functions =
        new DriverFunctions(
            NAME, driver, Air.AT_20_CELSIUS.bulkModulusPa(), areaM2.orElse(ANY_AREA_M2));
    return new DriverFigures(
        fit.estimate("Re", functions::resistance),
        fit.estimate("the coil's inductance", functions::coilInductance),
        fit.estimate("the coil's loss", functions::coilLoss),
        fit.estimate("fs", functions::resonance),
        fit.estimate("Qms", functions::mechanicalQ),
        fit.estimate("Qes", functions::electricalQ),
        fit.estimate("Qts", functions::totalQ),
        mechanical(fit, functions, "Mms", (v, mass) -> mass),
        mechanical(fit, functions, "Cms", functions::compliance),
        mechanical(fit, functions, "Rms", functions::mechanicalLoss),
        mechanical(fit, functions, "Bl", functions::forceFactor),
        equivalentVolume(fit, functions),
        area(fit, functions));
  }

  /** A figure that follows from the moving mass. */
  private interface OfMass {
    double at(Values values, double massKg);
  }

  private Outcome<Estimate> mechanical(
      BoxFit fit, DriverFunctions functions, String name, OfMass figure) {
    ToDoubleFunction<Values> mass;
    if (!loaded.isEmpty()) {
      boolean fitted = !boxed.isEmpty() && areaM2.isEmpty();
      mass = v -> functions.movingMass(v, fitted);
    } else if (massKg.isPresent()) {
      mass = v -> massKg.getAsDouble();
    } else if (!boxed.isEmpty() && areaM2.isPresent()) {
      mass = v -> functions.movingMass(v, false);
    } else {
      return Outcome.none(
          name
              + " cannot be had from free air alone: Bl, mass and area may all change together;"
              + " sweep again with a known mass on the cone, or in a known box with the area"
              + " known");
    }
    return fit.estimate(name, v -> figure.at(v, mass.applyAsDouble(v)));
  }

  private Outcome<Estimate> equivalentVolume(BoxFit fit, DriverFunctions functions) {
    if (!boxed.isEmpty() || (!loaded.isEmpty() && areaM2.isPresent())) {
      return fit.estimate("Vas", functions::equivalentVolume);
    }
    if (massKg.isPresent() && areaM2.isPresent()) {
      double area = areaM2.getAsDouble();
      double bulk = Air.AT_20_CELSIUS.bulkModulusPa();
      return fit.estimate(
          "Vas", v -> bulk * area * area * functions.compliance(v, massKg.getAsDouble()));
    }
    return Outcome.none(
        "Vas cannot be had from these sweeps: sweep again in a known box, or give the cone's area"
            + " and a known mass");
  }

  private Outcome<Estimate> area(BoxFit fit, DriverFunctions functions) {
    if (!loaded.isEmpty() && !boxed.isEmpty() && areaM2.isEmpty()) {
      return fit.estimate("the cone's area", functions::area);
    }
    return areaM2.isPresent()
        ? Outcome.found(Estimate.within(areaM2.getAsDouble(), 0))
        : Outcome.none("the cone's area shows only in a known mass and a known box together");
  }
}
