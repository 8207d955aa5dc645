/**
 * From a jig to a measured curve: the bench looked at, a comb or a row of tones played, each record
 * taken again when something hit it. Entries: {@link conewise.jig.sweep.QuickSweep}, {@link
 * conewise.jig.sweep.ThoroughSweep}.
 */
package conewise.jig.sweep;
