package conewise.jig.sweep;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.LinkHealth;
import conewise.protocol.JigIdentity;
import java.util.List;
import java.util.Optional;

/**
 * A sweep that ran to its end. Whether its curve can be judged is for its findings to say.
 *
 * @param kind which sweep
 * @param measurement the corrected curve, or why there is none, and what the bench has to say
 * @param readCurve the curve as read by the jig's nominal scales, before any correction
 * @param captures the raw records that the curve rests on, in order
 * @param frequenciesHz the frequencies played, rising, in hertz
 * @param level the peak played, in drive steps
 * @param selfCheck what the look at the bench gave; empty when there was none
 * @param calibration the correction used; empty when the nominal scales were
 * @param jig what the jig says about itself
 * @param health how the link behaved
 * @param jigSeconds how long the sweep took by the link's clock, in seconds
 */
public record SweepResult(
    SweepKind kind,
    Measurement measurement,
    Outcome<ImpedanceCurve> readCurve,
    List<Capture> captures,
    List<Double> frequenciesHz,
    int level,
    Optional<SelfCheckReport> selfCheck,
    Optional<Calibration> calibration,
    JigIdentity jig,
    LinkHealth health,
    double jigSeconds)
    implements SweepOutcome {

  public SweepResult {
    captures = List.copyOf(captures);
    frequenciesHz = List.copyOf(frequenciesHz);
  }
}
