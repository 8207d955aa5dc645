/**
 * Impedance from captures whose excitation is not known: noise, sweeps, music, tones. Entry: {@link
 * conewise.analysis.spectrum.CrossSpectra}; long files go through {@link
 * conewise.analysis.spectrum.Decimator} as they are read.
 */
package conewise.analysis.spectrum;
