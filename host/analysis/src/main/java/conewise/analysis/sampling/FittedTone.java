package conewise.analysis.sampling;

import org.apache.commons.math3.complex.Complex;

/**
 * One tone found in a channel: x(t) = Re(phasor e^(j 2 pi f t)), t on the channel's clock.
 *
 * @param frequencyHz its frequency in hertz
 * @param phasor its complex amplitude (peak, not effective value) at t = 0, in the channel's unit
 * @param varianceReal variance of the phasor's real part, in unit squared, not negative
 * @param varianceImaginary variance of its imaginary part, in unit squared, not negative
 * @param covariance covariance of the two parts, in unit squared
 * @param noiseVariance variance of one sample of white noise as strong as the noise next to this
 *     tone, in unit squared; the three figures before rest on it
 */
public record FittedTone(
    double frequencyHz,
    Complex phasor,
    double varianceReal,
    double varianceImaginary,
    double covariance,
    double noiseVariance) {

  /** The peak amplitude, in the channel's unit. */
  public double amplitude() {
    return phasor.abs();
  }

  /** One number for both parts: the root mean square of their standard uncertainties. */
  public double standardUncertainty() {
    return Math.sqrt((varianceReal + varianceImaginary) / 2);
  }
}
