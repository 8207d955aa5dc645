/**
 * Which way cones set out, from a microphone before them while steps are driven into the box.
 * Entry: {@link conewise.analysis.polarity.FirstHalfCycle} for one cone, {@link
 * conewise.analysis.polarity.ConesOfABox} for those of one box together.
 */
package conewise.analysis.polarity;
