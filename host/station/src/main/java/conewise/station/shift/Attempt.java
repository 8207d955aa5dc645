package conewise.station.shift;

import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.JobCard;
import conewise.station.fixture.Artefact;
import conewise.station.records.PlanText;
import conewise.station.shift.BenchState.Job;
import java.util.List;
import java.util.Optional;

/** What is known of the box whose verdict is shown. */
record Attempt(
    Job job,
    PlannedBox plan,
    PlanText text,
    Optional<Artefact> artefact,
    Keeper.Kept kept,
    JobCard card,
    List<SweptState> sweeps,
    List<Observation.Pop> pops) {
  Attempt with(List<SweptState> otherSweeps, List<Observation.Pop> otherPops) {
    return new Attempt(job, plan, text, artefact, kept, card, otherSweeps, otherPops);
  }

  Attempt saying(JobCard other) {
    return new Attempt(job, plan, text, artefact, kept, other, sweeps, pops);
  }
}
