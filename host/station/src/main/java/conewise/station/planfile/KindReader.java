package conewise.station.planfile;

import conewise.analysis.model.Air;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.Stated;
import conewise.station.planfile.Fields.Range;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Reads a kind of driver: what of its datasheet a plan has. */
final class KindReader {
  /** What a plan may say of a kind of driver. */
  static final List<String> KEYS =
      List.of(
          "coils",
          "resonance",
          "mechanical_q",
          "electrical_q",
          "total_q",
          "equivalent_volume",
          "moving_mass",
          "compliance",
          "cone_area",
          "inductance");

  private static final int MOST_COILS = 4;

  /** How far the three Q may disagree. */
  private static final double AGREEMENT = 0.05;

  // Usual spreads where a plan gives no tolerance (common practice, from memory).
  private static final double RESONANCE = 0.12;
  private static final double MECHANICAL_Q = 0.3;
  private static final double ELECTRICAL_Q = 0.15;
  private static final double EQUIVALENT_VOLUME = 0.15;
  private static final double COIL = 0.05;
  private static final double INDUCTANCE = 0.6;
  private static final double AREA = 0.05;

  private static final Range OHM = new Range(0.1, 1000);
  private static final Range HERTZ = new Range(1, 1000);
  private static final Range QUALITY = new Range(0.05, 100);
  private static final Range VOLUME_M3 = new Range(1e-5, 10);
  private static final Range MASS_KG = new Range(1e-4, 10);
  private static final Range COMPLIANCE = new Range(1e-6, 0.1);
  private static final Range AREA_M2 = new Range(1e-4, 2);
  private static final Range HENRY = new Range(1e-6, 1);

  private final Problems problems;

  KindReader(Problems problems) {
    this.problems = problems;
  }

  /**
   * Reads one.
   *
   * @param name its name
   * @param fields the group that has its keys; others may be there as well
   */
  Optional<DriverKind> read(String name, Fields fields) {
    List<Stated> coils = coils(fields);
    Optional<Figure> mass = fields.figure("moving_mass", Optional.of(Measure.MASS), MASS_KG);
    Optional<Figure> compliance =
        fields.figure("compliance", Optional.of(Measure.COMPLIANCE), COMPLIANCE);
    Optional<Figure> area = fields.figure("cone_area", Optional.of(Measure.AREA), AREA_M2);
    Optional<Stated> resonance =
        fields
            .figure("resonance", Optional.of(Measure.FREQUENCY), HERTZ)
            .map(each -> each.stated(RESONANCE))
            .or(() -> resonance(mass, compliance));
    Optional<Stated> volume =
        fields
            .figure("equivalent_volume", Optional.of(Measure.VOLUME), VOLUME_M3)
            .map(each -> each.stated(EQUIVALENT_VOLUME))
            .or(() -> equivalentVolume(area, compliance));
    Qualities qualities = qualities(fields);
    Optional<Stated> henry =
        fields
            .figure("inductance", Optional.of(Measure.INDUCTANCE), HENRY)
            .map(each -> each.stated(INDUCTANCE));
    if (coils.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new DriverKind(
            name,
            coils,
            resonance,
            qualities.mechanical(),
            qualities.electrical(),
            volume,
            henry,
            area.map(each -> each.stated(AREA))));
  }

  private List<Stated> coils(Fields fields) {
    Optional<Node> node =
        fields.required("coils", "the DC resistance of each voice coil, such as [3.6 ohm]");
    if (node.isEmpty()) {
      return List.of();
    }
    if (!(node.get() instanceof Node.Sequence list)
        || list.items().isEmpty()
        || list.items().size() > MOST_COILS) {
      problems.add(
          node.get().line(),
          fields.where("coils")
              + " is "
              + node.get().described()
              + "; allowed is a list of 1 to "
              + MOST_COILS
              + " resistances, such as [3.6 ohm, 3.6 ohm].");
      return List.of();
    }
    List<Stated> coils = new ArrayList<>();
    for (Node item : list.items()) {
      Fields.figure(fields.where("coils"), item, Optional.of(Measure.RESISTANCE), OHM, problems)
          .ifPresent(each -> coils.add(each.stated(COIL)));
    }
    return coils.size() == list.items().size() ? coils : List.of();
  }

  /** fs = 1 / (2 pi sqrt(M C)) (Small, J. Audio Eng. Soc. 20, 1972). */
  private static Optional<Stated> resonance(Optional<Figure> mass, Optional<Figure> compliance) {
    return mass.isPresent() && compliance.isPresent()
        ? Optional.of(
            new Stated(
                1 / (2 * Math.PI * Math.sqrt(mass.get().value() * compliance.get().value())),
                RESONANCE))
        : Optional.empty();
  }

  /** Vas = rho c^2 S^2 C (Small 1972). */
  private static Optional<Stated> equivalentVolume(
      Optional<Figure> area, Optional<Figure> compliance) {
    return area.isPresent() && compliance.isPresent()
        ? Optional.of(
            new Stated(
                Air.AT_20_CELSIUS.bulkModulusPa()
                    * area.get().value()
                    * area.get().value()
                    * compliance.get().value(),
                EQUIVALENT_VOLUME))
        : Optional.empty();
  }

  private record Qualities(Optional<Stated> mechanical, Optional<Stated> electrical) {}

  /** Any two of the three give the third: 1/Qts = 1/Qms + 1/Qes. */
  private Qualities qualities(Fields fields) {
    Optional<Figure> mechanical = fields.figure("mechanical_q", Optional.empty(), QUALITY);
    Optional<Figure> electrical = fields.figure("electrical_q", Optional.empty(), QUALITY);
    Optional<Figure> total = fields.figure("total_q", Optional.empty(), QUALITY);
    Optional<Stated> qms = mechanical.map(each -> each.stated(MECHANICAL_Q));
    Optional<Stated> qes = electrical.map(each -> each.stated(ELECTRICAL_Q));
    if (total.isEmpty()) {
      return new Qualities(qms, qes);
    }
    double qts = total.get().value();
    if (qms.isPresent() && qes.isPresent()) {
      double both = 1 / (1 / qms.get().value() + 1 / qes.get().value());
      if (Math.abs(both / qts - 1) > AGREEMENT) {
        problems.add(
            fields.line("total_q"),
            String.format(
                Locale.ROOT,
                "%s is %s, and mechanical_q and electrical_q give %.3g; they must agree to within"
                    + " 5 %%.",
                fields.where("total_q"),
                Fields.plain(qts),
                both));
      }
      return new Qualities(qms, qes);
    }
    if (qms.isPresent()) {
      return new Qualities(qms, other(fields, qts, qms.get().value(), ELECTRICAL_Q));
    }
    if (qes.isPresent()) {
      return new Qualities(other(fields, qts, qes.get().value(), MECHANICAL_Q), qes);
    }
    // The electrical Q is nearly the total one where the mechanical Q is large, as it usually is.
    return new Qualities(
        Optional.empty(), Optional.of(new Stated(qts * USUAL_SHARE, ELECTRICAL_Q)));
  }

  /** Qes over Qts where Qms is about 10 times as large. */
  private static final double USUAL_SHARE = 1.1;

  private Optional<Stated> other(Fields fields, double total, double known, double spread) {
    double rest = 1 / total - 1 / known;
    if (rest > 0) {
      return Optional.of(new Stated(1 / rest, spread));
    }
    problems.add(
        fields.line("total_q"),
        fields.where("total_q")
            + " is "
            + Fields.plain(total)
            + ", not below the other Q, "
            + Fields.plain(known)
            + "; it must be.");
    return Optional.empty();
  }
}
