/**
 * The job card: everything that is known of one judged box, and how its figures are written for
 * people. Entry: {@link conewise.station.card.JobCard}.
 */
package conewise.station.card;
