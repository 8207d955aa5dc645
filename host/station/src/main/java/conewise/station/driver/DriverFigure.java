package conewise.station.driver;

import conewise.analysis.judgement.Check;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.DriverFigures;
import conewise.station.card.Figures;
import java.util.List;
import java.util.Optional;

/**
 * One parameter of a driver in the unit that a person uses.
 *
 * @param symbol its symbol in the trade
 * @param name its name in words
 * @param unit its unit; empty for a pure number
 * @param outcome value and 95 % interval in that unit, or why it cannot be had
 */
public record DriverFigure(String symbol, String name, String unit, Outcome<Estimate> outcome) {

  private static final double MILLI = 1e3;
  private static final double CM2_PER_M2 = 1e4;

  /** True where the value was stated by a person rather than measured: it has no width. */
  public boolean given() {
    return outcome instanceof Outcome.Found<Estimate> found
        && found.value().interval().low() == found.value().interval().high();
  }

  /** Value and interval as a person reads them; only where there is a value. */
  public Optional<Check.Reading> reading() {
    return outcome instanceof Outcome.Found<Estimate> found
        ? Optional.of(new Check.Reading(found.value().value(), found.value().interval(), unit))
        : Optional.empty();
  }

  /** All parameters in the order in which they are read. */
  static List<DriverFigure> of(DriverFigures figures) {
    String at = " at " + Figures.plain(DriverFigures.COIL_REFERENCE_HZ) + " Hz";
    return List.of(
        of("fs", "resonance in free air", "Hz", 1, figures.resonanceHz()),
        of("Qms", "mechanical Q", "", 1, figures.mechanicalQ()),
        of("Qes", "electrical Q", "", 1, figures.electricalQ()),
        of("Qts", "total Q", "", 1, figures.totalQ()),
        of("Re", "DC resistance", "ohm", 1, figures.dcResistanceOhm()),
        of("Le", "inductance" + at, "mH", MILLI, figures.coilInductanceHenry()),
        of("Rl", "coil's loss" + at, "ohm", 1, figures.coilLossOhm()),
        of("Mms", "moving mass with its air", "g", MILLI, figures.movingMassKg()),
        of("Cms", "compliance", "mm/N", MILLI, figures.complianceMPerN()),
        of("Rms", "mechanical loss", "kg/s", 1, figures.mechanicalLossNsPerM()),
        of("Bl", "force factor", "T m", 1, figures.forceFactorTm()),
        of("Vas", "equivalent volume", "litres", MILLI, figures.equivalentVolumeM3()),
        of("Sd", "area of the cone", "cm2", CM2_PER_M2, figures.areaM2()));
  }

  /** One figure whose estimate is in SI units, times a factor to the person's unit. */
  public static DriverFigure of(
      String symbol, String name, String unit, double factor, Outcome<Estimate> si) {
    return new DriverFigure(symbol, name, unit, si.map(estimate -> estimate.times(factor)));
  }
}
