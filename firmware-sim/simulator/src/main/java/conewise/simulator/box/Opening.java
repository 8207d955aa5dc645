package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

/** A way for air between two spaces, or a space and the outside: it moves, and moves air. */
public sealed interface Opening {
  /** One word, unlike that of any other opening. */
  String name();

  /** Where air is pushed when the opening moves forward. */
  String front();

  /** Where air is drawn from when the opening moves forward. */
  String rear();

  /**
   * A driver. Its cone moves to the front when current enters the positive lead of a coil.
   *
   * @param name one word
   * @param driver what it is
   * @param front the space before the cone
   * @param rear the space behind the cone, where the magnet is
   */
  record DriverOpening(String name, Driver driver, String front, String rear) implements Opening {
    /** Checks the names. */
    public DriverOpening {
      requireEnds(name, front, rear);
    }
  }

  /**
   * A passive radiator.
   *
   * @param name one word
   * @param massKg moving mass
   * @param complianceMPerN compliance of its suspension
   * @param lossNsPerM mechanical loss
   * @param areaM2 area
   * @param front the space before it
   * @param rear the space behind it
   */
  record PassiveRadiator(
      String name,
      double massKg,
      double complianceMPerN,
      double lossNsPerM,
      double areaM2,
      String front,
      String rear)
      implements Opening {
    /** Checks names and values. */
    public PassiveRadiator {
      requireEnds(name, front, rear);
      require("mass of " + name, massKg, 1e-5, 10, "kg");
      require("compliance of " + name, complianceMPerN, 1e-9, 1, "m/N");
      require("loss of " + name, lossNsPerM, 0, 1e4, "N s/m");
      require("area of " + name, areaM2, 1e-6, 2, "m2");
    }
  }

  /**
   * A vent: a mass of air with a loss.
   *
   * @param name one word
   * @param massKgPerM4 acoustic mass
   * @param lossPaSPerM3 acoustic loss
   * @param front one end
   * @param rear the other end
   */
  record Vent(String name, double massKgPerM4, double lossPaSPerM3, String front, String rear)
      implements Opening {
    /** Checks names and values. */
    public Vent {
      requireEnds(name, front, rear);
      require("acoustic mass of " + name, massKgPerM4, 1e-3, 1e9, "kg/m4");
      require("acoustic loss of " + name, lossPaSPerM3, 0, 1e9, "Pa s/m3");
    }

    /** A vent that tunes a space to a frequency, with its own quality at that frequency. */
    public static Vent tuning(String name, Air air, Space space, double tuningHz, double quality) {
      require("tuning of " + name, tuningHz, 1, 1000, "Hz");
      require("quality of " + name, quality, 0.1, 1e9, "");
      double w = 2 * Math.PI * tuningHz;
      double mass = 1 / (w * w * space.complianceM3PerPa(air));
      return new Vent(name, mass, w * mass / quality, Space.OUTSIDE, space.name());
    }

    /**
     * A round pipe with one end flush in a wall and one end free: mass = density x (length + 0.8488
     * a + 0.6133 a) / area, a being its radius. End corrections: 8 a / (3 pi) in a wall (Rayleigh),
     * 0.6133 a free (Levine and Schwinger 1948); both from memory.
     */
    public static Vent pipe(
        String name,
        Air air,
        double lengthM,
        double diameterM,
        double lossPaSPerM3,
        String front,
        String rear) {
      require("length of " + name, lengthM, 0, 10, "m");
      require("diameter of " + name, diameterM, 1e-3, 2, "m");
      double radius = diameterM / 2;
      double whole = lengthM + (0.8488 + 0.6133) * radius;
      double mass = air.densityKgPerM3() * whole / (Math.PI * radius * radius);
      return new Vent(name, mass, lossPaSPerM3, front, rear);
    }
  }

  /**
   * A leak: a resistance to the flow of air, with a very small mass of air in it (so small that it
   * matters above 100 kHz alone).
   *
   * @param name one word
   * @param resistancePaSPerM3 acoustic resistance
   * @param front one end
   * @param rear the other end
   */
  record Leak(String name, double resistancePaSPerM3, String front, String rear)
      implements Opening {
    private static final double MASS_OVER_RESISTANCE_SECONDS = 1e-6;

    /** Checks names and value. */
    public Leak {
      requireEnds(name, front, rear);
      require("resistance of " + name, resistancePaSPerM3, 1, 1e12, "Pa s/m3");
    }

    /** A leak to the outside that gives a space the quality stated at a frequency: R = Q/(w C). */
    public static Leak ofQuality(String name, Air air, Space space, double quality, double atHz) {
      require("quality of " + name, quality, 0.01, 1e9, "");
      require("frequency of " + name, atHz, 1, 1000, "Hz");
      double w = 2 * Math.PI * atHz;
      double resistance = quality / (w * space.complianceM3PerPa(air));
      return new Leak(name, resistance, Space.OUTSIDE, space.name());
    }

    double massKgPerM4() {
      return MASS_OVER_RESISTANCE_SECONDS * resistancePaSPerM3;
    }
  }

  private static void requireEnds(String name, String front, String rear) {
    Names.require("part", name);
    Names.require("space in front of " + name, front);
    Names.require("space behind " + name, rear);
    if (front.equals(rear) && !front.equals(Space.OUTSIDE)) {
      throw new IllegalArgumentException(
          "Both sides of " + name + " are in \"" + front + "\"; they must differ.");
    }
  }
}
