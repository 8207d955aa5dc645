package conewise.station.files;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Gathers the points of a curve from the lines of a file, refusing by line what a curve cannot be.
 */
final class CurveBuilder {

  /** More points than any sweep has; keeps the memory of a curve below about 20 MB. */
  static final int MOST_POINTS = 200_000;

  /** A reactance at 0 Hz smaller than this part of the modulus is rounding. */
  private static final double ROUNDING = 1e-12;

  private final TextSource source;
  private final List<ImpedancePoint> points = new ArrayList<>();

  CurveBuilder(TextSource source) {
    this.source = source;
  }

  void add(
      double frequencyHz, double ohm, double reactanceOhm, Optional<ImpedanceUncertainty> known)
      throws BadFileException {
    if (frequencyHz < 0) {
      throw source.bad("the frequency is " + frequencyHz + " Hz; it may not be negative.");
    }
    refuseDisorder(frequencyHz);
    if (points.size() == MOST_POINTS) {
      throw source.bad("at most " + MOST_POINTS + " points are read; shorten the file.");
    }
    double reactance = reactanceOhm;
    if (frequencyHz == 0 && reactance != 0) {
      if (Math.abs(reactance) > ROUNDING * Math.hypot(ohm, reactance)) {
        throw source.bad(
            "at 0 Hz the reactance is "
                + reactance
                + " ohm; a direct current meets none: write 0, or leave the line out.");
      }
      reactance = 0;
    }
    points.add(new ImpedancePoint(frequencyHz, ohm, reactance, known));
  }

  ImpedanceCurve build() throws BadFileException {
    if (points.isEmpty()) {
      throw source.badFile("there is no row of numbers; a curve has at least one.");
    }
    return new ImpedanceCurve(points);
  }

  private void refuseDisorder(double frequencyHz) throws BadFileException {
    if (points.isEmpty()) {
      return;
    }
    double before = points.get(points.size() - 1).frequencyHz();
    if (frequencyHz == before) {
      throw source.bad("the frequency " + frequencyHz + " Hz comes twice; keep one of the two.");
    }
    if (frequencyHz < before) {
      throw source.bad(
          "the frequency "
              + frequencyHz
              + " Hz follows "
              + before
              + " Hz; frequencies must rise: sort the rows.");
    }
  }
}
