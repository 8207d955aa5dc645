package conewise.station.records;

import conewise.analysis.judgement.Decision;
import java.util.List;

/**
 * A run that is in the records, with all that came to it since.
 *
 * @param id its number in the records
 * @param attempt counted by the records, from 1
 * @param limitsVersion which of the job's limits it was judged by on the bench
 * @param run the run as it was handed in; its sightings are those known by now
 * @param judgements the bench's first, then those of later limits; at least one
 * @param overrulings in the order in which they were made
 */
public record KeptRun(
    long id,
    int attempt,
    int limitsVersion,
    BoxRun run,
    List<Judgement> judgements,
    List<Overruling> overrulings) {
  public KeptRun {
    judgements = List.copyOf(judgements);
    overrulings = List.copyOf(overrulings);
  }

  /** For people: {@code run 12, C-0117, attempt 2}. */
  public String words() {
    return "run " + id + ", " + run.serial() + ", attempt " + attempt;
  }

  /** What holds by now: what a person decided last, else the last judgement. */
  public Decision standing() {
    return overrulings.isEmpty()
        ? judgements.get(judgements.size() - 1).verdict().decision()
        : overrulings.get(overrulings.size() - 1).decision();
  }
}
