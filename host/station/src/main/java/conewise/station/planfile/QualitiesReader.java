package conewise.station.planfile;

import conewise.analysis.plan.Stated;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import java.util.Locale;
import java.util.Optional;

/**
 * Reads the three Q of a driver, of which any two give the third: 1/Qts = 1/Qms + 1/Qes (R. H.
 * Small, J. Audio Eng. Soc. 20, 1972, from memory).
 */
final class QualitiesReader {
  static final Range QUALITY = new Range(0.05, 100);

  /** How far the three may disagree. */
  private static final double AGREEMENT = 0.05;

  /** Qes over Qts where Qms is about 10 times as large, as it often is (common practice). */
  private static final double USUAL_SHARE = 1.1;

  private final Fields fields;
  private final Problems problems;

  QualitiesReader(Fields fields, Problems problems) {
    this.fields = fields;
    this.problems = problems;
  }

  /** What a model needs of them, as far as it is known. */
  record Qualities(Optional<Stated> mechanical, Optional<Stated> electrical) {}

  Qualities read() {
    Optional<Stated> mechanical = stated("mechanical_q", UsualSpread.MECHANICAL_Q);
    Optional<Stated> electrical = stated("electrical_q", UsualSpread.ELECTRICAL_Q);
    Optional<Double> total = fields.exact("total_q", Optional.empty(), QUALITY).map(Figure::value);
    if (total.isEmpty()) {
      return new Qualities(mechanical, electrical);
    }
    double totalQ = total.get();
    if (mechanical.isPresent() && electrical.isPresent()) {
      noteDisagreement(totalQ, mechanical.get().value(), electrical.get().value());
      return new Qualities(mechanical, electrical);
    }
    if (mechanical.isPresent()) {
      return new Qualities(
          mechanical, third(totalQ, mechanical.get().value(), UsualSpread.ELECTRICAL_Q));
    }
    if (electrical.isPresent()) {
      return new Qualities(
          third(totalQ, electrical.get().value(), UsualSpread.MECHANICAL_Q), electrical);
    }
    return new Qualities(
        Optional.empty(), Optional.of(new Stated(totalQ * USUAL_SHARE, UsualSpread.ELECTRICAL_Q)));
  }

  private Optional<Stated> stated(String key, double usualSpread) {
    return fields.figure(key, Optional.empty(), QUALITY).map(each -> each.stated(usualSpread));
  }

  private void noteDisagreement(double total, double mechanical, double electrical) {
    double both = 1 / (1 / mechanical + 1 / electrical);
    if (Math.abs(both / total - 1) > AGREEMENT) {
      problems.add(
          fields.line("total_q"),
          String.format(
              Locale.ROOT,
              "%s is %s, and mechanical_q and electrical_q give %.3g; they must agree to within"
                  + " 5 %%.",
              fields.where("total_q"),
              Fields.plain(total),
              both));
    }
  }

  private Optional<Stated> third(double total, double known, double spread) {
    double third = 1 / (1 / total - 1 / known);
    if (total < known && QUALITY.holds(third)) {
      return Optional.of(new Stated(third, spread));
    }
    problems.add(
        fields.line("total_q"),
        String.format(
            Locale.ROOT,
            "%s is %s beside another Q of %s; it must lie below that, so that the third Q, 1 /"
                + " (1/%s - 1/%s), is %s.",
            fields.where("total_q"),
            Fields.plain(total),
            Fields.plain(known),
            Fields.plain(total),
            Fields.plain(known),
            QUALITY.described()));
    return Optional.empty();
  }
}
