/**
 * Tones as sound files, for tests by hand and ear. Entry: {@link conewise.station.tone.ToneWave};
 * {@link conewise.station.tone.ChosenTone} says which and why.
 */
package conewise.station.tone;
