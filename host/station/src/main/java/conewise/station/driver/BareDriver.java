package conewise.station.driver;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.DriverMeasurement;
import conewise.analysis.parameter.UsablePoints;
import conewise.station.card.Figures;
import java.util.ArrayList;
import java.util.List;

/**
 * What the sweeps of one driver, fitted together, came to.
 *
 * @param sweeps what was fitted, free air first
 * @param figures the parameters
 * @param notes what a reader must know of them, full sentences
 * @param fit the fit that they come from, its sweeps in the same order
 */
public record BareDriver(
    List<DriverSweep> sweeps, List<DriverFigure> figures, List<String> notes, BoxFit fit) {

  public BareDriver {
    sweeps = List.copyOf(sweeps);
    figures = List.copyOf(figures);
    notes = List.copyOf(notes);
  }

  /** Relative standard uncertainty of the scale that the sweeps share: the largest stated. */
  double scaleUncertainty() {
    return scaleUncertainty(sweeps);
  }

  static double scaleUncertainty(List<DriverSweep> sweeps) {
    return sweeps.stream().mapToDouble(each -> each.curve().scaleUncertainty()).max().orElse(0);
  }

  /**
   * Fits all sweeps of a driver together. Takes about a second.
   *
   * @param sweeps one in free air, first, and any number in other states
   * @param known what is known beside them
   * @return the parameters, or why there are none, a full sentence
   */
  public static Outcome<BareDriver> of(List<DriverSweep> sweeps, KnownOfDriver known) {
    List<Double> peaksHz = new ArrayList<>();
    for (DriverSweep sweep : sweeps) {
      Outcome<Double> peak = SinglePeak.hz(sweep);
      if (peak instanceof NoResult<Double> none) {
        return Outcome.none(none.because());
      }
      peaksHz.add(((Found<Double>) peak).value());
    }
    for (int i = 1; i < sweeps.size(); i++) {
      if (!movedAsItMust(sweeps.get(i).state(), peaksHz.get(0), peaksHz.get(i))) {
        return Outcome.none(wrongWay(sweeps.get(0), sweeps.get(i), peaksHz.get(0), peaksHz.get(i)));
      }
    }
    double highestHz = UsablePoints.highestHz(peaksHz.get(0));
    return fitted(sweeps, sweeps.stream().map(sweep -> sweep.fitted(highestHz)).toList(), known);
  }

  /** A mass lowers the resonance, the air of a closed box raises it. */
  private static boolean movedAsItMust(DriverState state, double freeHz, double hz) {
    return state instanceof DriverState.InBox ? hz > freeHz : hz < freeHz;
  }

  private static String wrongWay(
      DriverSweep freeAir, DriverSweep other, double freeHz, double otherHz) {
    boolean box = other.state() instanceof DriverState.InBox;
    return other.file()
        + " ("
        + other.state().words()
        + ") peaks at "
        + Figures.plain(otherHz)
        + " Hz and "
        + freeAir.file()
        + " (free air) at "
        + Figures.plain(freeHz)
        + " Hz; "
        + (box ? "a closed box raises" : "a mass lowers")
        + " the resonance: check that the files are not swapped"
        + (box ? " and that the box is shut." : " and that the mass is firmly on the cone.");
  }

  private static Outcome<BareDriver> fitted(
      List<DriverSweep> whole, List<DriverSweep> sweeps, KnownOfDriver known) {
    DriverMeasurement measurement = known.measurement(sweeps.get(0));
    for (DriverSweep sweep : sweeps) {
      measurement = DriverState.add(measurement, sweep);
    }
    Outcome<DriverMeasurement.Fitted> outcome = measurement.fitted();
    if (outcome instanceof NoResult<DriverMeasurement.Fitted> none) {
      return Outcome.none(
          "The curves could not be fitted: "
              + none.because()
              + "; check that all are of this driver and that nothing touches the cone.");
    }
    DriverMeasurement.Fitted found = ((Found<DriverMeasurement.Fitted>) outcome).value();
    List<DriverFigure> figures = DriverFigure.of(found.figures());
    boolean nothing =
        figures.stream()
            .allMatch(each -> each.given() || each.outcome() instanceof NoResult<Estimate>);
    return nothing
        ? Outcome.none("The curves tell no parameter; sweep again with more points.")
        : Outcome.found(
            new BareDriver(sweeps, figures, DriverNotes.of(whole, sweeps, known), found.fit()));
  }
}
