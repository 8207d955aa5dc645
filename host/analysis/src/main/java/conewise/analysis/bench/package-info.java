/**
 * What can be wrong with a measurement rather than with a box. Entry: {@link
 * conewise.analysis.bench.BenchFinding}.
 */
package conewise.analysis.bench;
