package conewise.station.shift;

import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.judgement.Decision;
import conewise.analysis.prediction.ExpectedBand;
import conewise.jig.sweep.CurveSoFar;
import conewise.station.card.JobCard;
import conewise.station.records.Overruling;
import java.util.List;
import java.util.Optional;

/**
 * All that a screen shows of a bench, at one moment. The verdict is part of the box that it belongs
 * to, so that it can never stand beside another box's number.
 *
 * @param version rises with every change
 * @param phase where the bench is
 * @param operator who works at it, where said
 * @param jobs the jobs that can be chosen
 * @param job the one that is chosen
 * @param expected where the curves of that job's boxes should lie
 * @param box the box on the bench
 * @param jig whether the jig answers, and what it is
 * @param slept the computer's sleep, until somebody goes on after it
 * @param remark why the last thing asked for was not done
 * @param today what was finished in this shift, the latest first
 */
public record BenchState(
    long version,
    Phase phase,
    Optional<String> operator,
    List<Job> jobs,
    Optional<Job> job,
    Optional<ExpectedBand> expected,
    Optional<OnBench> box,
    JigLine jig,
    Optional<Slept> slept,
    Optional<String> remark,
    List<Done> today) {

  public BenchState {
    jobs = List.copyOf(jobs);
    today = List.copyOf(today);
  }

  /**
   * A job: a plan that boxes are built to.
   *
   * @param code what is scanned or typed for it
   * @param title the plan's own name
   */
  public record Job(String code, String title) {}

  /**
   * The box on the bench.
   *
   * @param serial its number
   * @param fraction how far its sweep has come, 0 to 1
   * @param doing what is being done, a few words
   * @param soFar what can be seen of the curve before the verdict; nothing rests on it
   * @param card what is said of it, once that is kept
   * @param pops what its cones did, as far as somebody has told
   * @param again the states in which it was swept again
   * @param kept where its card is kept, once it is
   * @param overruled what people decided otherwise since, in the order in which they did
   */
  public record OnBench(
      String serial,
      double fraction,
      String doing,
      CurveSoFar soFar,
      Optional<JobCard> card,
      List<Observation.Pop> pops,
      List<State> again,
      Optional<Keeper.Kept> kept,
      List<Overruling> overruled) {
    /** Copies the lists. */
    public OnBench {
      pops = List.copyOf(pops);
      again = List.copyOf(again);
      overruled = List.copyOf(overruled);
    }

    static OnBench of(String serial) {
      return measured(serial, 0, "", CurveSoFar.NONE);
    }

    /** A box of which nothing is said yet. */
    static OnBench measured(String serial, double fraction, String doing, CurveSoFar soFar) {
      return new OnBench(
          serial,
          fraction,
          doing,
          soFar,
          Optional.empty(),
          List.of(),
          List.of(),
          Optional.empty(),
          List.of());
    }

    /** The same box with what people decided otherwise. */
    OnBench overruled(List<Overruling> by) {
      return new OnBench(serial, fraction, doing, soFar, card, pops, again, kept, by);
    }
  }

  /**
   * The jig's line.
   *
   * @param answers whether it answers
   * @param words which jig, or what is wrong with the line and what to do
   */
  public record JigLine(boolean answers, String words) {}

  /**
   * A box that is finished.
   *
   * @param serial its number
   * @param job the job's code
   * @param attempt which attempt this was, from 1
   * @param decision what was said
   * @param time when, as hours and minutes
   * @param overruled whether a person decided otherwise while it was on the bench
   */
  public record Done(
      String serial, String job, int attempt, Decision decision, String time, boolean overruled) {

    Done overruled(boolean now) {
      return new Done(serial, job, attempt, decision, time, now);
    }
  }
}
