package conewise.analysis.fit;

/**
 * Where along a curve the impedance goes how much with a driver's suspension and coil: slopes of ln
 * Z by the logarithm of the spring's and of the coil's impedance, at every point.
 */
final class ModelDrift {
  final double[] springRe;
  final double[] springIm;
  final double[] coilRe;
  final double[] coilIm;

  /** Logarithm of the frequency at which the suspension is as its formula says. */
  double springPin;

  ModelDrift(int points) {
    springRe = new double[points];
    springIm = new double[points];
    coilRe = new double[points];
    coilIm = new double[points];
  }
}
