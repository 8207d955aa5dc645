package conewise.analysis.plan;

import conewise.analysis.outcome.Interval;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a box should be, as far as a judgement from the curve needs it. Anything left out is not
 * checked, and the verdict says so.
 *
 * @param name the plan's name, for people
 * @param kind how the box works
 * @param drivers the drivers, each with its coils
 * @param wiring how the coils are joined
 * @param separateSpaces true when the drivers do not share one air space
 * @param leadOhm resistance of the leads inside the box, in ohm, 0 if not known
 * @param limits what must hold
 */
public record BoxPlan(
    String name,
    Kind kind,
    List<PlannedDriver> drivers,
    Wiring wiring,
    boolean separateSpaces,
    double leadOhm,
    Limits limits) {

  /** How a box works, from the outside. */
  public enum Kind {
    SEALED,
    VENTED
  }

  /**
   * One driver.
   *
   * @param name its name in the plan
   * @param coilOhm the DC resistance of each voice coil, in ohm, each positive
   * @param resonanceHz its resonance out of the box, in hertz, when known
   */
  public record PlannedDriver(String name, List<Double> coilOhm, Optional<Double> resonanceHz) {
    public PlannedDriver {
      coilOhm = List.copyOf(coilOhm);
      if (coilOhm.isEmpty()) {
        throw new IllegalArgumentException(
            "driver " + name + " has 0 voice coils; a driver has at least 1");
      }
      for (double ohm : coilOhm) {
        requirePositive("a voice coil of driver " + name, ohm, "ohm");
      }
      resonanceHz.ifPresent(hz -> requirePositive("the resonance of driver " + name, hz, "Hz"));
    }
  }

  /**
   * What must hold. An empty one is not asked.
   *
   * @param dcResistanceOhm DC resistance at the terminals; when empty, derived from the coils and
   *     the wiring with {@code dcToleranceFraction}
   * @param dcToleranceFraction relative tolerance of the derived resistance, e.g. 0.1
   * @param ratedImpedanceOhm the rated impedance: the lowest modulus may not fall below 80 % of it
   *     (IEC 60268-5, 16.1)
   * @param tuningHz the vent's tuning (vented)
   * @param resonanceHz the resonance in the box (sealed)
   * @param dipRatio |Z| at the dip between the peaks over the DC resistance (vented): rises with a
   *     leak
   * @param peakRatio |Z| of the main peak (sealed) or of the smaller of the two (vented) over the
   *     DC resistance: falls with a leak or a rubbing coil
   */
  public record Limits(
      Optional<Interval> dcResistanceOhm,
      double dcToleranceFraction,
      Optional<Double> ratedImpedanceOhm,
      Optional<Interval> tuningHz,
      Optional<Interval> resonanceHz,
      Optional<Interval> dipRatio,
      Optional<Interval> peakRatio) {
    public Limits {
      if (!(dcToleranceFraction > 0 && dcToleranceFraction < 1)) {
        throw new IllegalArgumentException(
            "the DC tolerance is "
                + dcToleranceFraction
                + "; it must lie between 0 and 1, both left out");
      }
      ratedImpedanceOhm.ifPresent(ohm -> requirePositive("the rated impedance", ohm, "ohm"));
    }
  }

  public BoxPlan {
    drivers = List.copyOf(drivers);
    if (drivers.isEmpty()) {
      throw new IllegalArgumentException("a plan has at least one driver; it had 0");
    }
    if (!(leadOhm >= 0) || Double.isInfinite(leadOhm)) {
      throw new IllegalArgumentException(
          "the leads have " + leadOhm + " ohm; they must have a finite value of at least 0 ohm");
    }
    requireEachCoilOnce(drivers, wiring);
  }

  /** The coil that a leaf of the wiring names, in ohm. */
  public double coilOhm(Wiring.Coil coil) {
    return drivers.stream()
        .filter(driver -> driver.name().equals(coil.driver()))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no driver is named " + coil.driver()))
        .coilOhm()
        .get(coil.number() - 1);
  }

  private static void requireEachCoilOnce(List<PlannedDriver> drivers, Wiring wiring) {
    List<Wiring.Coil> named = wiring.coils();
    List<Wiring.Coil> there = new ArrayList<>();
    for (PlannedDriver driver : drivers) {
      for (int number = 1; number <= driver.coilOhm().size(); number++) {
        there.add(new Wiring.Coil(driver.name(), number));
      }
    }
    for (Wiring.Coil coil : there) {
      long times = named.stream().filter(coil::equals).count();
      if (times != 1) {
        throw new IllegalArgumentException(
            "the wiring names coil "
                + coil.number()
                + " of driver "
                + coil.driver()
                + " "
                + times
                + " times; it must name each coil once");
      }
    }
    for (Wiring.Coil coil : named) {
      if (!there.contains(coil)) {
        throw new IllegalArgumentException(
            "the wiring names coil "
                + coil.number()
                + " of driver "
                + coil.driver()
                + ", which the plan does not have");
      }
    }
  }

  private static void requirePositive(String what, double value, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(
          what + " is " + value + " " + unit + "; it must be finite and more than 0");
    }
  }
}
