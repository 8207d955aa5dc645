package conewise.station.judging;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.feature.Extrema;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.JobCard;
import conewise.station.card.Mark;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Judges a measurement and fills in the job card. */
public final class Judging {
  private final BoxJudge judge;

  /** Judging by the judge that the application uses. */
  public Judging() {
    this(new BoxJudge());
  }

  /** Judging with rates of a shop's own. */
  public Judging(Rates rates) {
    this(new BoxJudge(rates));
  }

  Judging(BoxJudge judge) {
    this.judge = judge;
  }

  /**
   * Judges.
   *
   * @param plan what the box should be
   * @param measurement what was measured
   * @param serial the box's number, when given
   * @param facts how it was measured
   * @return the card; its attempt is empty, see {@link #numbered}
   */
  public JobCard card(
      PlannedBox plan, Measurement measurement, Optional<String> serial, List<JobCard.Fact> facts) {
    return card(plan, measurement, BoxJudge.Evidence.NONE, serial, facts);
  }

  /** The same with other sweeps of the box, and what was seen of it. */
  public JobCard card(
      PlannedBox plan,
      Measurement measurement,
      BoxJudge.Evidence more,
      Optional<String> serial,
      List<JobCard.Fact> facts) {
    return new JobCard(
        serial,
        OptionalInt.empty(),
        plan,
        measurement,
        judge.judge(plan, measurement, more),
        marks(measurement.curve()),
        facts);
  }

  /** The same card with the number of its attempt. */
  public static JobCard numbered(JobCard card, int attempt) {
    return card.numbered(attempt);
  }

  /** The peaks and dips that the analysis resolves in a curve, rising in frequency. */
  public static List<Mark> marks(Outcome<ImpedanceCurve> outcome) {
    if (!(outcome instanceof Outcome.Found<ImpedanceCurve> found)
        || found.value().highestHz() <= 0
        || found.value().points().stream().anyMatch(point -> point.modulusOhm() == 0)) {
      return List.of();
    }
    Extrema extrema = Extrema.of(found.value());
    List<Mark> marks = new ArrayList<>();
    extrema.peaks().forEach(peak -> add(marks, Mark.Kind.PEAK, peak));
    extrema.dips().forEach(dip -> add(marks, Mark.Kind.DIP, dip));
    marks.sort(Comparator.comparingDouble(Mark::frequencyHz));
    return marks;
  }

  private static void add(List<Mark> marks, Mark.Kind kind, Extremum extremum) {
    double hz = extremum.frequencyHz().value();
    double ohm = extremum.modulusOhm().value();
    if (hz > 0 && ohm >= 0 && Double.isFinite(hz + ohm)) {
      marks.add(new Mark(kind, hz, ohm));
    }
  }
}
