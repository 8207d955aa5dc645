/**
 * How long the analysis takes, beside NumPy and SciPy doing the same task and beside what the
 * machine allows. Entry: {@link conewise.benchmarks.Report}.
 */
package conewise.benchmarks;
