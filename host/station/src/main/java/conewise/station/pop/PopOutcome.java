package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.ExitCode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What a pop test came to.
 *
 * @param way how it was made
 * @param readings one a driver
 * @param proof what is known of the microphone's own sign, where one was used
 */
public record PopOutcome(
    PopWay way, List<PopReading> readings, Optional<HearingCones.Proof> proof) {

  /** Copies the list. */
  public PopOutcome {
    readings = List.copyOf(readings);
  }

  /** Whether a microphone was used whose own sign is known. */
  public boolean isProven() {
    return proof.equals(Optional.of(HearingCones.Proof.RIGHT))
        || proof.equals(Optional.of(HearingCones.Proof.BACKWARD));
  }

  /** Pass when every cone does what it should, fail when one does not, else not judged. */
  public ExitCode exitCode() {
    if (readings.stream().anyMatch(PopReading::isWrong)) {
      return ExitCode.FAIL;
    }
    return readings.stream().allMatch(PopReading::isRight) ? ExitCode.PASS : ExitCode.NOT_JUDGED;
  }

  /** For people: the microphone, each cone, and what to do. */
  public List<String> sentences() {
    List<String> sentences = new ArrayList<>();
    proof.ifPresent(each -> sentences.add(each.sentence()));
    readings.forEach(each -> sentences.add(each.sentence()));
    sentences.add(advice());
    return sentences;
  }

  private String advice() {
    boolean unproven = proof.equals(Optional.of(HearingCones.Proof.NOT_ASKED));
    if (unproven && readings.stream().allMatch(PopOutcome::isTurned)) {
      return "Every cone is the wrong way round: the leads to the box are swapped, or those of the"
          + " microphone; prove the microphone with --known-right.";
    }
    return switch (exitCode()) {
      case PASS -> "Every cone does what it should.";
      case FAIL -> "Swap the leads of what is wrong, and make the test again.";
      default -> "Not every cone is known; hear or watch those again.";
    };
  }

  private static boolean isTurned(PopReading reading) {
    return reading.isWrong() && !reading.seen().equals(Outcome.found(Motion.HARDLY));
  }
}
