package conewise.analysis.feature;

import conewise.analysis.outcome.Estimate;

/**
 * A peak or a dip of |Z| that stands out of the curve's own jitter.
 *
 * @param frequencyHz where, by a local fit between the points
 * @param modulusOhm |Z| there
 * @param prominence how far it stands out from the nearer of its two neighbours of the other kind,
 *     as a ratio of moduli, more than 1
 */
public record Extremum(Estimate frequencyHz, Estimate modulusOhm, double prominence) {}
