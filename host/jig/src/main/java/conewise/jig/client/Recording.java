package conewise.jig.client;

import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.util.List;
import java.util.Optional;

/**
 * A record that came in whole.
 *
 * @param capture voltage and current in volt and ampere by the jig's own nominal scales. Instants
 *     are counted from phase zero of the wave that played, or from the jig's tick 0 when none did
 * @param third the optional input, when it was recorded, in the unit that the jig states
 * @param lowCodes the lowest raw code of each channel
 * @param highCodes the highest raw code of each channel
 * @param codes the jig's number of codes: a raw code of 0 or codes - 1 stands at a rail
 */
public record Recording(
    Capture capture,
    Optional<SampledChannel> third,
    List<Integer> lowCodes,
    List<Integer> highCodes,
    int codes) {

  public Recording {
    lowCodes = List.copyOf(lowCodes);
    highCodes = List.copyOf(highCodes);
  }

  /** True when any raw code of voltage or current stood at a rail, even within a sum. */
  public boolean touchedRail() {
    return touchedRail(0) || touchedRail(1);
  }

  private boolean touchedRail(int channel) {
    return lowCodes.get(channel) <= 0 || highCodes.get(channel) >= codes - 1;
  }
}
