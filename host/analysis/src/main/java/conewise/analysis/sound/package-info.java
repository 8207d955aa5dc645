/**
 * Sound on its way: moist air, the time that a distance takes and its phase, and the level of two
 * sources against their phase. Entries: {@link conewise.analysis.sound.Travel}, {@link
 * conewise.analysis.sound.TwoSources}, {@link conewise.analysis.sound.MoistAir}.
 */
package conewise.analysis.sound;
