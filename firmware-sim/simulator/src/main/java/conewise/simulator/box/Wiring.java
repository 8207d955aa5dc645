package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

import java.util.List;
import java.util.function.UnaryOperator;

/** A two-terminal tree of coils and other loads in series and parallel. */
public sealed interface Wiring {
  /** What state a coil is in. */
  enum CoilState {
    /** As it should be. */
    SOUND,
    /** Interrupted: no current passes. */
    OPEN,
    /** Its leads touch: current passes beside it, and its own current closes on itself. */
    SHORTED
  }

  /**
   * The leads of a coil.
   *
   * @param driver name of the driver's opening
   * @param coil 1 for the first coil of that driver
   * @param reversed whether current that enters the tree leaves at the coil's positive lead
   * @param state what state it is in
   */
  record CoilLeads(String driver, int coil, boolean reversed, CoilState state) implements Wiring {
    /** Checks the name and number. */
    public CoilLeads {
      Names.require("driver", driver);
      require("number of a coil of " + driver, coil, 1, 4, "");
    }
  }

  /**
   * A resistance: a joint, a lead, a resistor.
   *
   * @param ohm 0 to 10 megohm
   */
  record Resistance(double ohm) implements Wiring {
    /** Checks the value. */
    public Resistance {
      require("resistance", ohm, 0, 1e7, "ohm");
    }
  }

  /**
   * An inductor without loss.
   *
   * @param henry above 0
   */
  record Inductor(double henry) implements Wiring {
    /** Checks the value. */
    public Inductor {
      require("inductance", henry, 1e-9, 100, "H");
    }
  }

  /**
   * A capacitor with its series resistance.
   *
   * @param farad above 0
   * @param seriesOhm at least a milliohm
   */
  record Capacitor(double farad, double seriesOhm) implements Wiring {
    /** Checks the values. */
    public Capacitor {
      require("capacitance", farad, 1e-12, 1, "F");
      require("series resistance of a capacitor", seriesOhm, 1e-3, 1e6, "ohm");
    }
  }

  /**
   * A voltage from elsewhere with its source resistance: hum, a battery, an amplifier left
   * connected.
   *
   * @param sourceOhm at least a milliohm
   * @param steadyVolt constant part
   * @param peakVolt peak of the alternating part
   * @param frequencyHz of the alternating part
   */
  record ForeignVoltage(double sourceOhm, double steadyVolt, double peakVolt, double frequencyHz)
      implements Wiring {
    /** Checks the values. */
    public ForeignVoltage {
      require("source resistance of a foreign voltage", sourceOhm, 1e-3, 1e7, "ohm");
      require("steady foreign voltage", steadyVolt, -200, 200, "V");
      require("peak foreign voltage", peakVolt, 0, 200, "V");
      require("frequency of a foreign voltage", frequencyHz, 0, 5000, "Hz");
    }
  }

  /** An interruption: no current passes. */
  record OpenCircuit() implements Wiring {}

  /** A link of wire: one milliohm. */
  record Link() implements Wiring {
    static final double OHM = 1e-3;
  }

  /**
   * Parts in series.
   *
   * @param parts at least one
   */
  record Series(List<Wiring> parts) implements Wiring {
    /** Checks that there is a part. */
    public Series {
      parts = requireParts(parts);
    }
  }

  /**
   * Parts in parallel.
   *
   * @param parts at least one
   */
  record Parallel(List<Wiring> parts) implements Wiring {
    /** Checks that there is a part. */
    public Parallel {
      parts = requireParts(parts);
    }
  }

  /** A sound coil, positive lead first. */
  static Wiring coil(String driver, int number) {
    return new CoilLeads(driver, number, false, CoilState.SOUND);
  }

  /** Parts in series. */
  static Wiring series(Wiring... parts) {
    return new Series(List.of(parts));
  }

  /** Parts in parallel. */
  static Wiring parallel(Wiring... parts) {
    return new Parallel(List.of(parts));
  }

  /** A resistance. */
  static Wiring ohm(double ohm) {
    return new Resistance(ohm);
  }

  /** The same tree with each pair of coil leads changed as told. */
  default Wiring mapCoils(UnaryOperator<CoilLeads> change) {
    if (this instanceof CoilLeads leads) {
      return change.apply(leads);
    } else if (this instanceof Series series) {
      return new Series(series.parts.stream().map(part -> part.mapCoils(change)).toList());
    } else if (this instanceof Parallel parallel) {
      return new Parallel(parallel.parts.stream().map(part -> part.mapCoils(change)).toList());
    }
    return this;
  }

  private static List<Wiring> requireParts(List<Wiring> parts) {
    if (parts.isEmpty()) {
      throw new IllegalArgumentException("A series or parallel wiring is empty; it needs a part.");
    }
    return List.copyOf(parts);
  }
}
