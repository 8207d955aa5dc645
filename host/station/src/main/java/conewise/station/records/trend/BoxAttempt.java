package conewise.station.records.trend;

import conewise.analysis.judgement.Decision;
import java.time.Instant;

/**
 * One run, as far as yield asks.
 *
 * @param job what the box belongs to
 * @param serial the box's own number
 * @param attempt from 1
 * @param finished when
 * @param decision as judged on the bench
 */
public record BoxAttempt(
    String job, String serial, int attempt, Instant finished, Decision decision) {}
