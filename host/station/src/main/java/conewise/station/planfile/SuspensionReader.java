package conewise.station.planfile;

import conewise.analysis.model.Air;
import conewise.analysis.plan.Stated;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import java.util.Locale;
import java.util.Optional;

/**
 * Reads resonance and equivalent volume of a driver, or works them out: fs = 1 / (2 pi sqrt(Mms
 * Cms)), Vas = rho c^2 Sd^2 Cms (R. H. Small, J. Audio Eng. Soc. 20, 1972, from memory).
 */
final class SuspensionReader {
  static final Range HERTZ = new Range(1, 1000);
  static final Range VOLUME_M3 = new Range(1e-5, 10);
  private static final Range MASS_KG = new Range(1e-4, 10);
  private static final Range COMPLIANCE = new Range(1e-6, 0.1);

  /** Datasheets round; what differs by more is a slip of a digit or a unit. */
  private static final double RESONANCE_AGREEMENT = 0.05;

  /** Wider: the area enters squared. */
  private static final double VOLUME_AGREEMENT = 0.2;

  private final Fields fields;
  private final Problems problems;

  SuspensionReader(Fields fields, Problems problems) {
    this.fields = fields;
    this.problems = problems;
  }

  /** What a model needs, as far as it is known. */
  record Suspension(Optional<Stated> resonanceHz, Optional<Stated> equivalentVolumeM3) {}

  /**
   * Reads them.
   *
   * @param areaM2 area of the cone, where known
   */
  Suspension read(Optional<Double> areaM2) {
    Optional<Stated> resonance =
        fields
            .figure("resonance", Optional.of(Measure.FREQUENCY), HERTZ)
            .map(each -> each.stated(UsualSpread.RESONANCE));
    Optional<Stated> volume =
        fields
            .figure("equivalent_volume", Optional.of(Measure.VOLUME), VOLUME_M3)
            .map(each -> each.stated(UsualSpread.EQUIVALENT_VOLUME));
    Optional<Double> mass =
        fields.exact("moving_mass", Optional.of(Measure.MASS), MASS_KG).map(Figure::value);
    Optional<Double> compliance =
        fields.exact("compliance", Optional.of(Measure.COMPLIANCE), COMPLIANCE).map(Figure::value);
    Optional<Double> workedOutHz =
        mass.flatMap(m -> compliance.map(c -> 1 / (2 * Math.PI * Math.sqrt(m * c))));
    Optional<Double> softness =
        compliance.or(() -> mass.flatMap(m -> resonance.map(f -> complianceOf(m, f.value()))));
    Optional<Double> workedOutM3 =
        softness.flatMap(c -> areaM2.map(s -> Air.AT_20_CELSIUS.bulkModulusPa() * s * s * c));
    return new Suspension(
        settled(
                "resonance",
                resonance,
                workedOutHz,
                "moving_mass and compliance",
                HERTZ,
                "Hz",
                RESONANCE_AGREEMENT)
            .map(hz -> resonance.orElseGet(() -> new Stated(hz, UsualSpread.RESONANCE))),
        settled(
                "equivalent_volume",
                volume,
                workedOutM3,
                "cone_area with "
                    + (compliance.isPresent() ? "compliance" : "moving_mass and resonance"),
                VOLUME_M3,
                "m3",
                VOLUME_AGREEMENT)
            .map(m3 -> volume.orElseGet(() -> new Stated(m3, UsualSpread.EQUIVALENT_VOLUME))));
  }

  private static double complianceOf(double massKg, double resonanceHz) {
    double angular = 2 * Math.PI * resonanceHz;
    return 1 / (angular * angular * massKg);
  }

  /** The stated value, or else the one worked out; a problem where they disagree. */
  private Optional<Double> settled(
      String key,
      Optional<Stated> stated,
      Optional<Double> workedOut,
      String source,
      Range range,
      String unit,
      double agreement) {
    if (workedOut.isEmpty() || (fields.has(key) && stated.isEmpty())) {
      return stated.map(Stated::value);
    }
    double value = workedOut.get();
    if (stated.isEmpty() && !range.holds(value)) {
      note(
          "%s follows from %s as %.3g %s; allowed is %s. Check their units.",
          fields.where(key), source, value, unit, range.described());
      return Optional.empty();
    }
    if (stated.isPresent() && Math.abs(value / stated.get().value() - 1) > agreement) {
      note(
          "%s is %.3g %s, and %s gives %.3g %s; they must agree to within %.0f %%.",
          fields.where(key), stated.get().value(), unit, source, value, unit, 100 * agreement);
    }
    return stated.map(Stated::value).or(() -> workedOut);
  }

  private void note(String format, Object... words) {
    problems.add(fields.line(), String.format(Locale.ROOT, format, words));
  }
}
