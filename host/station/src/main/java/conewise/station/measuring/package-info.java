/**
 * Reaching a jig, sweeping with it, and keeping an interrupted sweep for later. Entries: {@link
 * conewise.station.measuring.JigChoice}, {@link conewise.station.measuring.SweepRun}.
 */
package conewise.station.measuring;
