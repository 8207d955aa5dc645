package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.polarity.ConesOfABox;
import conewise.analysis.polarity.FirstHalfCycle;
import conewise.station.answer.CommandFailure;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Hears every cone of a box that can be reached, and tells them beside one another. */
public final class HearingCones {
  private static final int TRIES = 3;

  /** What is known of the microphone's own sign. */
  public enum Proof {
    /** Nobody asked. */
    NOT_ASKED("The microphone is taken to be the right way round; nothing has shown it yet."),
    /** It heard a right driver rightly. */
    RIGHT("The microphone heard the driver known to be right the right way round."),
    /** It heard a right driver the other way. */
    BACKWARD(
        "The microphone is wired backwards: it heard the driver known to be right the other way"
            + " round. The readings are turned round for it; swap its leads."),
    /** The right driver gave no sign. */
    FAILED("The driver known to be right gave no sign, so nothing is told of the others.");

    private final String sentence;

    Proof(String sentence) {
      this.sentence = sentence;
    }

    /** For people. */
    public String sentence() {
      return sentence;
    }
  }

  /** What came of it. */
  public record Result(List<PopReading> readings, Proof proof) {
    /** Copies the list. */
    public Result {
      readings = List.copyOf(readings);
    }
  }

  private final PopPlan plan;
  private final MicrophoneBench bench;

  /** Of a plan, on a bench. */
  public HearingCones(PopPlan plan, MicrophoneBench bench) {
    this.plan = plan;
    this.bench = bench;
  }

  /**
   * Hears them.
   *
   * @param knownRight a driver that is known to be wired right, to prove the microphone by
   * @throws CommandFailure when the jig fails, or nobody is there to hold the microphone
   */
  public Result run(Optional<String> knownRight) throws CommandFailure {
    Map<String, Outcome<FirstHalfCycle>> heard = new LinkedHashMap<>();
    for (String driver : plan.expected().keySet()) {
      heard.put(driver, hear(driver));
    }
    Map<String, Outcome<Motion>> told = ConesOfABox.of(plan.kinds(), heard, false);
    Proof proof = Proof.NOT_ASKED;
    if (knownRight.isPresent()) {
      proof = proof(told.get(knownRight.get()), plan.expected().get(knownRight.get()));
      if (proof == Proof.BACKWARD) {
        told = ConesOfABox.of(plan.kinds(), heard, true);
      }
    }
    List<PopReading> readings = new ArrayList<>();
    for (Map.Entry<String, Outcome<Motion>> each : told.entrySet()) {
      Outcome<Motion> seen =
          proof == Proof.FAILED ? Outcome.none(Proof.FAILED.sentence()) : each.getValue();
      readings.add(
          new PopReading(
              each.getKey(),
              plan.expected().get(each.getKey()),
              seen,
              heard.get(each.getKey()) instanceof Found<FirstHalfCycle> found
                  ? Optional.of(found.value())
                  : Optional.empty()));
    }
    return new Result(readings, proof);
  }

  private Outcome<FirstHalfCycle> hear(String driver) throws CommandFailure {
    for (int attempt = 1; ; attempt++) {
      Outcome<FirstHalfCycle> heard = FirstHalfCycle.of(bench.hear(driver).heard().orElseThrow());
      if (!(heard instanceof NoResult<FirstHalfCycle> none)
          || attempt == TRIES
          || !bench.again(driver, none.because())) {
        return heard;
      }
    }
  }

  private static Proof proof(Outcome<Motion> told, Motion expected) {
    if (!(told instanceof Found<Motion> found)
        || found.value() == Motion.HARDLY
        || expected == Motion.HARDLY) {
      return Proof.FAILED;
    }
    return found.value() == expected ? Proof.RIGHT : Proof.BACKWARD;
  }
}
