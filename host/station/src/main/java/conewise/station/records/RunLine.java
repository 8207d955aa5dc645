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
    Optional<Decision> overruled) {}
