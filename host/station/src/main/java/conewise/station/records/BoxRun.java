package conewise.station.records;

import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.sampling.Capture;
import conewise.station.card.JobCard;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * One run of one box, whole, on its way into the records. Its attempt is not in it: the records
 * count that.
 *
 * @param token made once for each run ({@link #newToken}); the records keep a run of the same token
 *     once, so that keeping may be tried again when its answer was lost
 * @param job what the box belongs to, 1 to 80 characters
 * @param serial the box's own number, 1 to 64 characters
 * @param plan by which it was judged
 * @param operator who was at the bench, where known
 * @param station at which bench, 1 to 80 characters
 * @param jig with what
 * @param started when the run began
 * @param finished when its verdict was had, not before {@code started}
 * @param software this application's version
 * @param measurement the curve or why there is none, and what the bench had to say
 * @param captures the raw records that the curve rests on
 * @param secondSweeps sweeps of the same box in another state
 * @param estimates values read off the curve, beside the checks'
 * @param verdict what was said of it
 * @param sightings what people saw of it
 * @param facts how it was measured, as the job card has it
 */
public record BoxRun(
    String token,
    String job,
    String serial,
    PlanText plan,
    Optional<String> operator,
    String station,
    JigUsed jig,
    Instant started,
    Instant finished,
    String software,
    Measurement measurement,
    List<Capture> captures,
    List<SweptState> secondSweeps,
    List<NamedEstimate> estimates,
    Verdict verdict,
    List<Sighting> sightings,
    List<JobCard.Fact> facts) {
  /** The longest serial number, in characters. */
  public static final int SERIAL_MAX = 64;

  /**
   * The job of runs that prove the fixture by an artefact; they are listed and shown, and count in
   * no yield, trend or count of faults unless that job is asked for.
   */
  public static final String CHALLENGE_JOB = "fixture challenge";

  /** The longest name of a job, a station or a person, in characters. */
  public static final int NAME_MAX = 80;

  public BoxRun {
    Words.require("the run's token", token, NAME_MAX);
    Words.require("the job", job, NAME_MAX);
    Words.require("the serial number", serial, SERIAL_MAX);
    Words.require("the operator's name", operator, NAME_MAX);
    Words.require("the station's name", station, NAME_MAX);
    Words.require("the software's version", software, NAME_MAX);
    if (finished.isBefore(started)) {
      throw new IllegalArgumentException(
          "the run finished at " + finished + ", before it started at " + started);
    }
    captures = List.copyOf(captures);
    secondSweeps = List.copyOf(secondSweeps);
    estimates = List.copyOf(estimates);
    sightings = List.copyOf(sightings);
    facts = List.copyOf(facts);
  }

  /** A token that no other run has. */
  public static String newToken() {
    return java.util.UUID.randomUUID().toString();
  }

  /**
   * A run from its job card, with the estimates that its curve gives.
   *
   * @param card what is said of the box; must bear a serial number
   * @param job what the box belongs to; the plan's name where a shop has no job numbers
   * @param plan the plan's text
   * @param bench who, where and with what
   * @param captures the raw records
   * @param sightings what people saw of the box
   */
  public static BoxRun of(
      JobCard card,
      String job,
      PlanText plan,
      Bench bench,
      List<Capture> captures,
      List<Sighting> sightings) {
    return new BoxRun(
        newToken(),
        job,
        card.serial().orElseThrow(),
        plan,
        bench.operator(),
        bench.station(),
        bench.jig(),
        bench.started(),
        bench.finished(),
        bench.software(),
        card.measurement(),
        captures,
        List.of(),
        CurveEstimates.of(card.measurement()),
        card.verdict(),
        sightings,
        card.facts());
  }

  /**
   * Who ran it, where, when and with what; see the record around it.
   *
   * @param operator who was at the bench
   * @param station at which bench
   * @param jig with what
   * @param started when the run began
   * @param finished when its verdict was had
   * @param software this application's version
   */
  public record Bench(
      Optional<String> operator,
      String station,
      JigUsed jig,
      Instant started,
      Instant finished,
      String software) {}
}
