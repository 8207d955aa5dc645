package conewise.analysis.prediction;

import conewise.analysis.fit.Discrepancy;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** Makes of an exact curve what a quick sweep would read of a real box. */
final class QuickSweepNoise {
  /** Relative standard deviation of a point (docs/model.md). */
  private static final double NOISE = 0.008;

  /** Of the resistance at 0 Hz. */
  private static final double DC_NOISE = 0.003;

  private static final double SMOOTH = Discrepancy.OF_BUILT_BOXES.smooth();
  private static final double OCTAVE = Math.log(2);

  private final Random random;
  private double level;
  private double angle;

  private QuickSweepNoise(Random random) {
    this.random = random;
    level = SMOOTH * random.nextGaussian();
    angle = SMOOTH * random.nextGaussian();
  }

  /**
   * Each point with noise of its own, and all off the model by the smooth part of the usual
   * discrepancy, which forgets itself over an octave.
   */
  static ImpedanceCurve on(ImpedanceCurve exact, Random random) {
    QuickSweepNoise noise = new QuickSweepNoise(random);
    List<ImpedancePoint> points = new ArrayList<>();
    double before = exact.highestHz();
    for (ImpedancePoint point : exact.points()) {
      points.add(point.frequencyHz() == 0 ? noise.direct(point) : noise.at(point, before));
      before = point.frequencyHz();
    }
    return new ImpedanceCurve(points);
  }

  private ImpedancePoint direct(ImpedancePoint point) {
    double ohm = point.resistanceOhm();
    return new ImpedancePoint(
        0,
        ohm * Math.exp(DC_NOISE * random.nextGaussian()),
        0,
        Optional.of(ImpedanceUncertainty.ofResistance(DC_NOISE * ohm)));
  }

  private ImpedancePoint at(ImpedancePoint point, double beforeHz) {
    wander(Math.min(1, beforeHz / point.frequencyHz()));
    double factor = Math.exp(level + NOISE * random.nextGaussian());
    double turn = angle + NOISE * random.nextGaussian();
    double re = factor * Math.cos(turn);
    double im = factor * Math.sin(turn);
    return new ImpedancePoint(
        point.frequencyHz(),
        re * point.resistanceOhm() - im * point.reactanceOhm(),
        re * point.reactanceOhm() + im * point.resistanceOhm(),
        Optional.of(ImpedanceUncertainty.circular(NOISE * point.modulusOhm())));
  }

  /** A first-order Gauss-Markov process in the logarithm of frequency. */
  private void wander(double fromTo) {
    double kept = Math.pow(fromTo, 1 / OCTAVE);
    double renewed = SMOOTH * Math.sqrt(1 - kept * kept);
    level = kept * level + renewed * random.nextGaussian();
    angle = kept * angle + renewed * random.nextGaussian();
  }
}
