package conewise.station.driver;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.parameter.UsablePoints;
import conewise.station.card.Figures;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a reader of a driver's parameters must know of them. */
public final class DriverNotes {
  private DriverNotes() {}

  /**
   * Writes them.
   *
   * @param whole the sweeps as they were read
   * @param sweeps the same as they were fitted
   */
  static List<String> of(List<DriverSweep> whole, List<DriverSweep> sweeps, KnownOfDriver known) {
    List<String> notes = new ArrayList<>();
    for (int i = 0; i < whole.size(); i++) {
      int all = whole.get(i).curve().points().size();
      int fitted = sweeps.get(i).curve().points().size();
      if (fitted < all) {
        notes.add(partly(whole.get(i).file(), all, sweeps.get(i).curve()));
      }
    }
    notes.add(scale(sweeps));
    if (sweeps.stream().mapToDouble(DriverNotes::scaleOf).distinct().count() > 1) {
      notes.add(
          "The files know their scales unlike well and are taken to share one, as sweeps by one jig"
              + " with one calibration do.");
    }
    if (sweeps.size() > 1 || known.areaCm2().isPresent() || known.movingMassGram().isPresent()) {
      notes.add(
          "Masses, volumes and areas that you state are taken as exact; weigh and measure them"
              + " well: 1 % in the added mass is 1 % in Mms, 1 % in the box is 1 % in Vas, 1 % in"
              + " the area is 2 % in what is computed through it.");
    }
    if (sweeps.size() == 1) {
      notes.add(
          "One peak alone cannot tell a driver in free air from one in a closed box; these are the"
              + " driver's own figures only if it was out of the box.");
    }
    return notes;
  }

  /** Says of a curve that it was cut or thinned. */
  public static String partly(Path file, int all, ImpedanceCurve fitted) {
    return "Of the "
        + all
        + " points of "
        + file
        + ", "
        + fitted.points().size()
        + " were fitted: those up to "
        + Figures.plain(fitted.highestHz())
        + " Hz, at most "
        + UsablePoints.MOST
        + " spread evenly over the octaves.";
  }

  private static String scale(List<DriverSweep> sweeps) {
    double most = BareDriver.scaleUncertainty(sweeps);
    return most > 0
        ? "The scale of impedance has a standard uncertainty of "
            + String.format(Locale.ROOT, "%.2g", 100 * most)
            + " %, which Re, Le, Rl and Bl carry; frequencies and Q are free of it. A jig"
            + " calibrated with a resistor of small tolerance knows it better."
        : "The files do not say how well their scale of impedance is known: the intervals of Re,"
            + " Le, Rl and Bl leave that out.";
  }

  private static double scaleOf(DriverSweep sweep) {
    return sweep.curve().scaleUncertainty();
  }
}
