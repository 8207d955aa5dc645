/**
 * What is played into a box: a comb of tones for the quick sweep, single tones for the thorough
 * one. Entries: {@link conewise.analysis.excitation.Comb} and {@link
 * conewise.analysis.excitation.ToneSchedule}.
 */
package conewise.analysis.excitation;
