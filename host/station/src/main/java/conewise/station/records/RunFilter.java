package conewise.station.records;

import conewise.analysis.judgement.Decision;
import java.time.Instant;
import java.util.Optional;

/**
 * Which runs are meant; what is empty does not narrow.
 *
 * @param since finished then or later
 * @param until finished before then
 * @param job of this job
 * @param serial of this box
 * @param decision judged so on the bench
 * @param most at most so many, the newest; 1 to 1 000 000
 */
public record RunFilter(
    Optional<Instant> since,
    Optional<Instant> until,
    Optional<String> job,
    Optional<String> serial,
    Optional<Decision> decision,
    int most) {
  /** The largest {@code most}. */
  public static final int MOST = 1_000_000;

  /** All runs. */
  public static final RunFilter ALL =
      new RunFilter(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          MOST);

  public RunFilter {
    if (most < 1 || most > MOST) {
      throw new IllegalArgumentException(most + " runs were asked for; 1 to " + MOST + " can be");
    }
    if (since.isPresent() && until.isPresent() && !since.get().isBefore(until.get())) {
      throw new IllegalArgumentException(
          "the time runs from " + since.get() + " to " + until.get() + ", so nothing lies in it");
    }
  }

  /** The newest of one box within a job. */
  public static RunFilter ofBox(String job, String serial) {
    return new RunFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.of(job),
        Optional.of(serial),
        Optional.empty(),
        MOST);
  }

  /** The same, but at most so many. */
  public RunFilter atMost(int count) {
    return new RunFilter(since, until, job, serial, decision, count);
  }
}
