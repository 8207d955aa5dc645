package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Has a person watch one cone after another and say what it did. */
public final class WatchingCones {
  private static final int MOST_REPEATS = 20;

  /** Makes a cone move, once. */
  public interface Mover {
    /** Moves it, or has it moved. */
    void move(String driver) throws CommandFailure;
  }

  private final PopPlan plan;
  private final PopTalk talk;
  private final Mover mover;

  /** Of a plan. */
  public WatchingCones(PopPlan plan, PopTalk talk, Mover mover) {
    this.plan = plan;
    this.talk = talk;
    this.mover = mover;
  }

  /**
   * Watches them.
   *
   * @param drivers which, in this order
   * @param given answers that are known already and not asked for
   * @throws CommandFailure when the jig fails, or nobody answers
   */
  public List<PopReading> run(List<String> drivers, Map<String, Motion> given)
      throws CommandFailure {
    List<PopReading> readings = new ArrayList<>();
    for (String driver : drivers) {
      Optional<Motion> seen =
          given.containsKey(driver) ? Optional.of(given.get(driver)) : watch(driver);
      readings.add(
          new PopReading(
              driver,
              plan.expected().get(driver),
              seen.map(Outcome::found).orElseGet(() -> Outcome.none("It was skipped.")),
              Optional.empty()));
    }
    return readings;
  }

  private Optional<Motion> watch(String driver) throws CommandFailure {
    for (int repeat = 0; repeat < MOST_REPEATS; repeat++) {
      talk.say(plan.instruction(driver));
      mover.move(driver);
      PopTalk.Answer answer = talk.ask(driver);
      if (!answer.again()) {
        return answer.seen();
      }
    }
    return Optional.empty();
  }
}
