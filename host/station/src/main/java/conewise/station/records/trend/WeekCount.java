package conewise.station.records.trend;

import conewise.analysis.judgement.Decision;

/**
 * How many runs of a week came out so.
 *
 * @param week which
 * @param decision as judged on the bench
 * @param runs how many
 */
public record WeekCount(Week week, Decision decision, int runs) {}
