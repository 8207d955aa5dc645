/**
 * The pop test: which way each cone of a box sets out, by eye or by a microphone, kept in a file
 * that a verdict takes. Entries: {@link conewise.station.pop.PopPlan}, {@link
 * conewise.station.pop.HearingCones}, {@link conewise.station.pop.PopFile}.
 */
package conewise.station.pop;
