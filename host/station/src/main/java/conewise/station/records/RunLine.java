package conewise.station.records;

import conewise.analysis.judgement.Decision;
import java.time.Instant;
import java.util.Optional;

/**
 * A kept run as a list shows it.
 *
 * @param id its number in the records
 * @param job what the box belongs to
 * @param serial the box's own number
 * @param attempt counted by the records, from 1
 * @param limitsVersion which of the job's limits it was judged by on the bench
 * @param finished when
 * @param decision as judged on the bench
 * @param headline one sentence
 * @param fault the likeliest fault in words, where one was suspected
 * @param operator who was at the bench
 * @param station at which bench
 * @param later as it was judged last, where that was not on the bench's first judgement
 * @param overruled what a person decided otherwise last, where one did
 */
public record RunLine(
    long id,
    String job,
    String serial,
    int attempt,
    int limitsVersion,
    Instant finished,
    Decision decision,
    String headline,
    Optional<String> fault,
    Optional<String> operator,
    String station,
    Optional<Decision> later,
    Optional<Overruling> overruled) {

  /**
   * Where a run stands in the order of time.
   *
   * @param finished when it ended
   * @param id its number, since two may end at the same moment
   */
  public record Place(Instant finished, long id) {}

  /** This run's. */
  public Place place() {
    return new Place(finished, id);
  }
}
