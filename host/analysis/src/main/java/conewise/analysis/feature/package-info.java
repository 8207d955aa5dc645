/**
 * What a curve shows by its shape: peaks and dips, zeros of the phase, DC resistance, lowest
 * modulus, and a sum of resonances fitted to the whole. Entry: {@link
 * conewise.analysis.feature.CurveFeatures}.
 */
package conewise.analysis.feature;
