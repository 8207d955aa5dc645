/**
 * From a measurement, whatever it came from, to a job card. Entry: {@link
 * conewise.station.judging.Judging}. {@link conewise.station.judging.MeasuredFile} reads it.
 */
package conewise.station.judging;
