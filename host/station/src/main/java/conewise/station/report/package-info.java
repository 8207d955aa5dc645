/**
 * Pages that stand alone in one file. Entries: {@link conewise.station.report.JobCardPage} for a
 * judged box, {@link conewise.station.report.FitPage} for a fit.
 */
package conewise.station.report;
