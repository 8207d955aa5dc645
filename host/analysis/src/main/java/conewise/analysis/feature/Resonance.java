package conewise.analysis.feature;

/**
 * One resonance of the sum fitted to a curve.
 *
 * @param frequencyHz its natural frequency, in hertz
 * @param quality its quality factor
 * @param strength its share of the sum of all resonances' residues: Bl squared over moving mass,
 *     relative; negative for one that a physical box of equal drivers cannot have
 */
public record Resonance(double frequencyHz, double quality, double strength) {}
