package conewise.analysis.load;

import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.function.ObjDoubleConsumer;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;

/**
 * A wiring whose coils are taken as resistances: their DC resistances, or their rated impedances
 * (Ohm's and Kirchhoff's laws; that rated impedances are combined as resistances is common
 * practice). Polarity does not matter to it.
 *
 * @param ohm at the terminals; above 0 and finite
 * @param shares of each coil, in the order of the wiring
 */
public record TerminalLoad(double ohm, List<Share> shares) {

  /** The lowest modulus over the rated impedance that is allowed (IEC 60268-5, 16.1). */
  public static final double LEAST_PART_OF_RATED = 0.8;

  /** Coils that are 1 % apart are still bought as alike. */
  private static final double ALIKE = 0.02;

  /**
   * A coil's part.
   *
   * @param coil which
   * @param ohm its resistance
   * @param power its part of the power, 0 to 1
   * @param voltage its part of the voltage, 0 to 1
   */
  public record Share(Coil coil, double ohm, double power, double voltage) {
    /** Power is voltage squared over resistance, for the coil as for the whole. */
    private static Share of(
        Coil coil, ToDoubleFunction<Coil> coilOhm, double voltage, double wholeOhm) {
      double ohm = coilOhm.applyAsDouble(coil);
      return new Share(coil, ohm, voltage * voltage * wholeOhm / ohm, voltage);
    }
  }

  public TerminalLoad {
    if (!(ohm > 0) || Double.isInfinite(ohm)) {
      throw new IllegalArgumentException(
          "the load of a wiring is " + ohm + " ohm; it must be finite and above 0");
    }
    shares = List.copyOf(shares);
  }

  /**
   * The load of a wiring of coils.
   *
   * @param coilOhm each coil's resistance, above 0
   * @throws IllegalArgumentException when a coil's resistance is not above 0, or a part is no coil
   */
  public static TerminalLoad of(Circuit circuit, ToDoubleFunction<Coil> coilOhm) {
    circuit.coils().forEach(coil -> require(coil, coilOhm.applyAsDouble(coil)));
    double whole = ohm(circuit, coilOhm);
    List<Share> shares = new ArrayList<>();
    share(
        circuit,
        coilOhm,
        1,
        (coil, voltage) -> shares.add(Share.of(coil, coilOhm, voltage, whole)));
    return new TerminalLoad(whole, shares);
  }

  private static void require(Coil coil, double ohm) {
    if (!(ohm > 0) || Double.isInfinite(ohm)) {
      throw new IllegalArgumentException(
          "coil "
              + coil.driver()
              + "."
              + coil.number()
              + " has "
              + ohm
              + " ohm; it must be finite and above 0");
    }
  }

  private static double ohm(Circuit circuit, ToDoubleFunction<Coil> coilOhm) {
    return DirectResistance.ohm(circuit, coilOhm, Circuit.Resistance::ohm);
  }

  /** In series the voltage is shared by resistance, in parallel each part has all of it. */
  private static void share(
      Circuit circuit,
      ToDoubleFunction<Coil> coilOhm,
      double voltage,
      ObjDoubleConsumer<Coil> found) {
    if (circuit instanceof Coil coil) {
      found.accept(coil, voltage);
    } else if (circuit instanceof Series series) {
      double whole = ohm(circuit, coilOhm);
      for (Circuit part : series.parts()) {
        share(part, coilOhm, voltage * ohm(part, coilOhm) / whole, found);
      }
    } else if (circuit instanceof Parallel parallel) {
      parallel.parts().forEach(part -> share(part, coilOhm, voltage, found));
    } else {
      throw new IllegalArgumentException(
          "the wiring has " + circuit + "; allowed are coils, series and parallel");
    }
  }

  /**
   * The lowest modulus that a box of this rated impedance may have in its rated range, in ohm; see
   * {@link #LEAST_PART_OF_RATED}.
   */
  public double leastAllowedOhm() {
    return LEAST_PART_OF_RATED * ohm;
  }

  /**
   * The highest rated impedance that a box of this DC resistance has a right to whatever its curve,
   * in ohm. Its modulus is nowhere below the DC resistance: with every cone held still the coils
   * leave that, and motion and inductance, being passive, add resistance to it (derived).
   */
  public double surelyRatedOhm() {
    return ohm / LEAST_PART_OF_RATED;
  }

  /** Whether each driver has as much of the power as any other, and so have coils of one driver. */
  public boolean isEvenOnDrivers() {
    Map<String, DoubleSummaryStatistics> drivers =
        shares.stream()
            .collect(
                Collectors.groupingBy(
                    share -> share.coil().driver(), Collectors.summarizingDouble(Share::power)));
    DoubleSummaryStatistics sums =
        drivers.values().stream().mapToDouble(DoubleSummaryStatistics::getSum).summaryStatistics();
    return isNarrow(sums) && drivers.values().stream().allMatch(TerminalLoad::isNarrow);
  }

  private static boolean isNarrow(DoubleSummaryStatistics parts) {
    return parts.getMax() <= (1 + ALIKE) * parts.getMin();
  }

  /** The smallest part of the power that a coil has. */
  public double leastPower() {
    return shares.stream().mapToDouble(Share::power).min().orElse(1);
  }

  /** The largest part of the power that a coil has. */
  public double mostPower() {
    return shares.stream().mapToDouble(Share::power).max().orElse(1);
  }
}
