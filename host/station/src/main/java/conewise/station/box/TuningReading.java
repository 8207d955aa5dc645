package conewise.station.box;

import conewise.analysis.outcome.Outcome;

/**
 * Another reading that is taken for a tuning, under its own name.
 *
 * @param name what it is
 * @param hertz its value, or why there is none
 * @param bias what it is known to be off
 */
public record TuningReading(String name, Outcome<Double> hertz, String bias) {}
