package conewise.station.driver;

import conewise.analysis.parameter.DriverMeasurement;
import conewise.station.card.Figures;

/** In what state a driver was swept. */
public sealed interface DriverState {

  /** A few words for people. */
  String words();

  /** In free air, clear of every surface. */
  record FreeAir() implements DriverState {
    @Override
    public String words() {
      return "free air";
    }
  }

  /**
   * In free air with a known mass on the cone.
   *
   * @param gram {@value #LEAST_GRAM} to {@value #MOST_GRAM}
   */
  record WithMass(double gram) implements DriverState {
    static final double LEAST_GRAM = 0.01;
    static final double MOST_GRAM = 5000;

    public WithMass {
      Allowed.require("a mass on the cone", gram, LEAST_GRAM, MOST_GRAM, "g");
    }

    @Override
    public String words() {
      return Figures.plain(gram) + " g on the cone";
    }
  }

  /**
   * On a closed box of known net volume.
   *
   * @param litre {@value #LEAST_LITRE} to {@value #MOST_LITRE}
   */
  record InBox(double litre) implements DriverState {
    static final double LEAST_LITRE = 0.01;
    static final double MOST_LITRE = 5000;

    public InBox {
      Allowed.require("a closed box", litre, LEAST_LITRE, MOST_LITRE, "litres");
    }

    @Override
    public String words() {
      return "closed box of " + Figures.plain(litre) + " litres";
    }
  }

  /** A measurement with one more sweep; free air is what it began with. */
  static DriverMeasurement add(DriverMeasurement measurement, DriverSweep sweep) {
    if (sweep.state() instanceof WithMass mass) {
      return measurement.withAddedMass(mass.gram() / 1000, sweep.curve());
    }
    return sweep.state() instanceof InBox box
        ? measurement.withBox(box.litre() / 1000, sweep.curve())
        : measurement;
  }
}
