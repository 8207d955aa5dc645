/**
 * A bench through a shift: box after box is scanned, measured, judged and kept, and what the bench
 * is doing is told as one snapshot at a time. Knows no screen. Entry: {@link
 * conewise.station.shift.Bench}.
 */
package conewise.station.shift;
