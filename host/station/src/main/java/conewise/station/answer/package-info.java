/**
 * What the application answers: as text on a screen, as JSON for programs, as an exit code.
 * Entries: {@link conewise.station.answer.TextAnswer}, {@link conewise.station.answer.JsonAnswer}.
 */
package conewise.station.answer;
