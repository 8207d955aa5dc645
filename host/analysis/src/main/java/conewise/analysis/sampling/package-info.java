/**
 * Samples of voltage and current on their true instants. Entry: {@link
 * conewise.analysis.sampling.Capture}.
 */
package conewise.analysis.sampling;
