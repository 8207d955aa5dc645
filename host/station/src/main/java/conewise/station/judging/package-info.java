/**
 * From a measurement, whatever it came from, to a job card. Entry: {@link
 * conewise.station.judging.Judging}.
 */
package conewise.station.judging;
