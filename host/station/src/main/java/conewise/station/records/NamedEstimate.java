package conewise.station.records;

import conewise.analysis.outcome.Estimate;

/**
 * A value with its 95 % interval that was read off a run.
 *
 * @param name a stable short name, such as {@code peak-1-hz}
 * @param estimate the value
 * @param unit "ohm", "Hz", or "" for a pure number
 */
public record NamedEstimate(String name, Estimate estimate, String unit) {
  public NamedEstimate {
    Words.require("an estimate's name", name, 80);
  }
}
