package conewise.analysis.judgement;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import java.util.List;

/**
 * What one sweep of one box gave.
 *
 * @param curve the corrected impedance, or why there is none
 * @param findings what the bench has to say of it, worst first
 */
public record Measurement(Outcome<ImpedanceCurve> curve, List<BenchFinding> findings) {

  public Measurement {
    findings = List.copyOf(findings);
  }

  /** A curve about which the bench has nothing to say. */
  public static Measurement of(ImpedanceCurve curve) {
    return new Measurement(Outcome.found(curve), List.of());
  }
}
