package conewise.station.records;

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
}
