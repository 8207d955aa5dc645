package conewise.station.judging;

import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.KeptRun;
import conewise.station.records.PlanText;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** What is kept of a run, back as a job card, or judged again. */
public final class KeptJudging {
  private final BoxJudge judge;

  /** Judges again with these rates of faults. */
  public KeptJudging(Rates rates) {
    this.judge = new BoxJudge(rates);
  }

  /**
   * The job card that the bench showed, with what people saw since.
   *
   * @throws BadFileException when this version cannot read the kept plan
   */
  public static JobCard card(KeptRun kept) throws BadFileException {
    return new JobCard(
        Optional.of(kept.run().serial()),
        OptionalInt.of(kept.attempt()),
        plan(kept.run().plan()),
        kept.run().measurement(),
        kept.run().verdict(),
        Judging.marks(kept.run().measurement().curve()),
        kept.run().facts());
  }

  /**
   * Judges a kept run by another plan, from its curve, its second sweeps and what people saw.
   *
   * @throws BadFileException when this version cannot read the plan that the run was measured by
   */
  public Verdict again(KeptRun kept, PlannedBox plan) throws BadFileException {
    List<Observation> seen = List.of();
    if (!kept.run().sightings().isEmpty()) {
      PlannedBox then = plan(kept.run().plan());
      seen =
          kept.run().sightings().stream()
              .flatMap(sighting -> sighting.observation(then).stream())
              .toList();
    }
    return judge.judge(
        plan, kept.run().measurement(), new BoxJudge.Evidence(kept.run().secondSweeps(), seen));
  }

  private static PlannedBox plan(PlanText plan) throws BadFileException {
    return PlannedBoxFile.ofText("the kept plan." + plan.format(), plan.text());
  }
}
