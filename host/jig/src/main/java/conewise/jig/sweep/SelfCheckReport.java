package conewise.jig.sweep;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import java.util.List;

/**
 * What the look at the bench before a sweep gave.
 *
 * @param idle a record without drive: whatever is in it does not come from the jig
 * @param dcResistance the resistance between the terminals at 0 Hz by the jig's nominal scales, or
 *     why it could not be read
 * @param level the peak to sweep with, in drive steps
 * @param findings what a person must know, worst first
 */
public record SelfCheckReport(
    Capture idle, Outcome<ImpedancePoint> dcResistance, int level, List<BenchFinding> findings) {

  public SelfCheckReport {
    findings = List.copyOf(findings);
    if (level < 1) {
      throw new IllegalArgumentException("the level is " + level + "; it must be at least 1");
    }
  }

  /** True when a sweep would be of no use: something else must be put right first. */
  public boolean spoils() {
    return findings.stream().anyMatch(BenchFinding::spoils);
  }
}
