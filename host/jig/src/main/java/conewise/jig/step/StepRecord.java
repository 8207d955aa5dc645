package conewise.jig.step;

import conewise.analysis.polarity.HeardSteps;
import conewise.analysis.sampling.Capture;
import java.util.Optional;

/**
 * What steps gave.
 *
 * @param drive voltage and current
 * @param heard the same with the microphone's channel, where it was recorded
 * @param level the level that was driven, in drive steps
 */
public record StepRecord(Capture drive, Optional<HeardSteps> heard, int level) {}
