package conewise.analysis.impedance;

import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/**
 * Takes a jig's leads, gains and leakage out of a reading: with open terminals, shorted ones and a
 * known resistor read before, whatever linear two-port lies between the converter and the box drops
 * out.
 *
 * <p>Zdut = Zstd (Zs - Zx)(Zm - Zo)/((Zx - Zo)(Zs - Zm)), Zo, Zs, Zm, Zx the readings of open,
 * short, standard and box: the bilinear map that takes Zo to infinity, Zs to 0 and Zm to Zstd (the
 * cross-ratio of four points is kept). Used here with Yo = 1/Zo, which stays finite.
 *
 * <p>Between the frequencies of the readings they are interpolated in a straight line; beyond them
 * there is no result. The uncertainty of each reading and of the standard is carried to each point
 * (JCGM 100, 5.2). That of the standard is a factor common to all points: a corrected curve holds
 * it as its {@link ImpedanceCurve#scaleUncertainty}, a point corrected alone holds it among its
 * own.
 *
 * @param open the reading of open terminals
 * @param shorted the raw reading of shorted terminals, in ohm
 * @param standard the raw reading of the known resistor, in ohm
 * @param standardOhm what the resistor is, in ohm, positive and finite
 * @param standardUncertaintyOhm its standard uncertainty in ohm, not negative
 */
public record OnePortCorrection(
    OpenReading open,
    ImpedanceCurve shorted,
    ImpedanceCurve standard,
    double standardOhm,
    double standardUncertaintyOhm) {

  /** The upper end of a reading that is the same at any frequency, in hertz. */
  static final double ANY_FREQUENCY_HZ = 1e9;

  public OnePortCorrection {
    if (!(standardOhm > 0) || Double.isInfinite(standardOhm)) {
      throw new IllegalArgumentException(
          "the standard is " + standardOhm + " ohm; it must be positive and finite");
    }
    if (!(standardUncertaintyOhm >= 0) || Double.isInfinite(standardUncertaintyOhm)) {
      throw new IllegalArgumentException(
          "the standard's uncertainty is "
              + standardUncertaintyOhm
              + " ohm; it must be finite and not negative");
    }
  }

  /** A correction that changes nothing, at any frequency. */
  public static OnePortCorrection identity() {
    return new OnePortCorrection(OpenReading.perfect(), anywhere(0), anywhere(1), 1, 0);
  }

  /**
   * A correction for leads and a scale alone, when no readings were taken: Z = (Zx - leadOhm) x
   * scale.
   *
   * @param leadOhm resistance in series with the terminals as read, in ohm
   * @param scale true ohm for each ohm read beyond it, positive
   * @param scaleRelativeUncertainty standard uncertainty of the scale over the scale
   */
  public static OnePortCorrection nominal(
      double leadOhm, double scale, double scaleRelativeUncertainty) {
    return new OnePortCorrection(
        OpenReading.perfect(),
        anywhere(leadOhm),
        anywhere(leadOhm + 1),
        scale,
        scale * scaleRelativeUncertainty);
  }

  /**
   * The standard uncertainty of a resistor marked with a tolerance, all values within equally
   * likely: the half width over the root of 3 (JCGM 100, 4.3.7).
   */
  public static double uncertaintyOfTolerance(double resistanceOhm, double toleranceFraction) {
    return resistanceOhm * toleranceFraction / Math.sqrt(3);
  }

  /**
   * Corrects a curve. A point at 0 Hz is corrected by what was read at the lowest frequency: a jig
   * that carries direct current is alike from there down.
   *
   * @return the corrected curve; or no result, with the reason, when any of its points cannot be
   *     corrected
   */
  public Outcome<ImpedanceCurve> apply(ImpedanceCurve read) {
    List<ImpedancePoint> corrected = new ArrayList<>(read.points().size());
    for (ImpedancePoint point : read.points()) {
      Outcome<ImpedancePoint> outcome = apply(point, 0);
      if (outcome instanceof Outcome.Found<ImpedancePoint> found) {
        corrected.add(found.value());
      } else {
        return Outcome.none(((Outcome.NoResult<ImpedancePoint>) outcome).because());
      }
    }
    double scale = Math.hypot(read.scaleUncertainty(), standardUncertaintyOhm / standardOhm);
    return Outcome.found(new ImpedanceCurve(corrected, scale));
  }

  /**
   * Corrects one point.
   *
   * @return the corrected point; or no result when its frequency lies outside the readings, or when
   *     short and standard, or the point and the open terminals, read alike
   */
  public Outcome<ImpedancePoint> apply(ImpedancePoint read) {
    return apply(read, standardUncertaintyOhm);
  }

  private Outcome<ImpedancePoint> apply(ImpedancePoint read, double ofStandardOhm) {
    double lowest = Math.max(shorted.lowestHz(), Math.max(standard.lowestHz(), openLowestHz()));
    double highest = Math.min(shorted.highestHz(), Math.min(standard.highestHz(), openHighestHz()));
    double frequencyHz = read.frequencyHz() == 0 ? lowest : read.frequencyHz();
    if (!(lowest <= frequencyHz && frequencyHz <= highest)) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "%.6g Hz cannot be corrected: the calibration was taken from %.6g to %.6g Hz;"
                  + " calibrate over the range of the sweep",
              frequencyHz,
              lowest,
              highest));
    }
    Outcome<ImpedancePoint> corrected =
        correct(
            frequencyHz,
            Reading.of(read),
            Reading.at(shorted, frequencyHz),
            Reading.at(standard, frequencyHz),
            Reading.at(open, frequencyHz),
            ofStandardOhm);
    return read.frequencyHz() == 0
        ? corrected.map(p -> new ImpedancePoint(0, p.resistanceOhm(), 0, p.uncertainty()))
        : corrected;
  }

  private Outcome<ImpedancePoint> correct(
      double frequencyHz,
      Reading box,
      Reading shortRead,
      Reading standardRead,
      Reading openRead,
      double ofStandardOhm) {
    Complex x = box.value();
    Complex s = shortRead.value();
    Complex m = standardRead.value();
    Complex y = openRead.value();
    Complex t = new Complex(standardOhm);
    Complex boxToOpen = x.multiply(y).subtract(1);
    Complex shortToStandard = s.subtract(m);
    if (boxToOpen.abs() < 1e-9 || shortToStandard.abs() < 1e-9 * m.abs()) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "%.6g Hz cannot be corrected: %s; calibrate again",
              frequencyHz,
              boxToOpen.abs() < 1e-9
                  ? "the terminals read as if open"
                  : "the short and the standard read alike"));
    }
    Complex standardToOpen = m.multiply(y).subtract(1);
    Complex whole = boxToOpen.multiply(shortToStandard);
    Complex shortToBox = s.subtract(x);
    Complex z = t.multiply(shortToBox).multiply(standardToOpen).divide(whole);
    Complex boxBeyondStandard = x.subtract(m);
    Complex shortFromOpen = s.multiply(y).subtract(1);
    Complex byStandard = z.divide(standardOhm);
    Complex byBox =
        t.multiply(standardToOpen)
            .multiply(shortFromOpen)
            .negate()
            .divide(whole.multiply(boxToOpen));
    Complex byShort =
        t.multiply(standardToOpen)
            .multiply(boxBeyondStandard)
            .divide(whole.multiply(shortToStandard));
    Complex byStandardRead =
        t.multiply(shortToBox).multiply(shortFromOpen).divide(whole.multiply(shortToStandard));
    Complex byOpen =
        t.multiply(shortToBox).multiply(boxBeyondStandard).divide(whole.multiply(boxToOpen));
    ImpedanceUncertainty standardItself =
        new ImpedanceUncertainty(ofStandardOhm * ofStandardOhm, 0, 0);
    ImpedanceUncertainty uncertainty =
        box.uncertainty()
            .through(byBox)
            .plus(shortRead.uncertainty().through(byShort))
            .plus(standardRead.uncertainty().through(byStandardRead))
            .plus(openRead.uncertainty().through(byOpen))
            .plus(standardItself.through(byStandard));
    return Outcome.found(
        new ImpedancePoint(frequencyHz, z.getReal(), z.getImaginary(), Optional.of(uncertainty)));
  }

  private double openLowestHz() {
    return open.points().get(0).frequencyHz();
  }

  private double openHighestHz() {
    return open.points().get(open.points().size() - 1).frequencyHz();
  }

  private static ImpedanceCurve anywhere(double resistanceOhm) {
    Optional<ImpedanceUncertainty> exact = Optional.of(ImpedanceUncertainty.circular(0));
    return new ImpedanceCurve(
        List.of(
            new ImpedancePoint(0, resistanceOhm, 0, exact),
            new ImpedancePoint(ANY_FREQUENCY_HZ, resistanceOhm, 0, exact)));
  }
}
