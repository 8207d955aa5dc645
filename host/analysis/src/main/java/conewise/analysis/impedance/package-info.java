/**
 * Impedance at one or many frequencies, with its uncertainty. Entry: {@link
 * conewise.analysis.impedance.ImpedanceCurve}.
 */
package conewise.analysis.impedance;
