/**
 * The job card as a page that stands alone in one file. Entry: {@link
 * conewise.station.report.JobCardPage}.
 */
package conewise.station.report;
