package conewise.station.records;

/**
 * What the records answer when a run is on the disk.
 *
 * @param id the run's number in the records
 * @param attempt which attempt it is for the serial number within its job, from 1
 * @param limitsVersion which of the job's limits it was judged by: 1 for the plan that the job
 *     began with, one more for each other text
 */
public record Appended(long id, int attempt, int limitsVersion) {}
