package conewise.station.records.trend;

import java.time.Instant;

/**
 * A failed run and what most probably was wrong with the box.
 *
 * @param job what the box belongs to
 * @param serial the box's own number
 * @param finished when
 * @param fault in words; what cannot be told apart stands together
 */
public record Suspected(String job, String serial, Instant finished, String fault) {}
