package conewise.jig.sweep;

import conewise.analysis.sampling.Capture;
import conewise.protocol.JigIdentity;
import java.util.List;
import java.util.Optional;

/**
 * What an interrupted sweep has come to, for going on from there.
 *
 * @param kind which sweep
 * @param jig the jig that it was begun on; no other may go on
 * @param selfCheck what the look at the bench gave, when it was done
 * @param readings what was read of the tones that are done (thorough sweep), in the order played
 * @param captures the raw records of those readings that gave a point
 */
public record SweepState(
    SweepKind kind,
    JigIdentity jig,
    Optional<SelfCheckReport> selfCheck,
    List<ToneReading> readings,
    List<Capture> captures) {

  public SweepState {
    readings = List.copyOf(readings);
    captures = List.copyOf(captures);
  }

  /** True when the jig given is the one that the sweep was begun on, as far as it can tell. */
  public boolean isOf(JigIdentity other) {
    return jig.equals(other);
  }
}
