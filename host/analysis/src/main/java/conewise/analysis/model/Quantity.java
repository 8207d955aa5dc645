package conewise.analysis.model;

/**
 * One number of a box that a fit may move.
 *
 * @param part the name of the space, opening or resistance that it belongs to
 * @param kind which of its numbers
 */
public record Quantity(String part, Kind kind) {

  /** The numbers that parts have. */
  public enum Kind {
    RESONANCE("resonance", "Hz"),
    MECHANICAL_Q("mechanical Q", ""),
    ELECTRICAL_Q("electrical Q", ""),
    EQUIVALENT_VOLUME("equivalent volume", "m3"),
    COIL_RESISTANCE("coil resistance", "ohm"),
    INDUCTANCE("inductance", "H"),
    LOSSY_INDUCTANCE("lossy inductance", "ohm at 1 rad/s"),
    LOSSY_EXPONENT("exponent of the lossy inductance", ""),
    AREA("area", "m2"),
    COUPLING("coupling of the coils", ""),
    CREEP("creep", "per decade"),
    VOLUME("volume", "m3"),
    ABSORPTION_Q("absorption Q", ""),
    TUNING("tuning", "Hz"),
    VENT_Q("vent Q", ""),
    LEAK_Q("leak Q", ""),
    RESISTANCE("resistance", "ohm");

    private final String words;
    private final String unit;

    Kind(String words, String unit) {
      this.words = words;
      this.unit = unit;
    }

    /** Its name for people. */
    public String words() {
      return words;
    }

    /** Its unit; blank for a pure number. */
    public String unit() {
      return unit;
    }

    /**
     * True when it is counted by its logarithm, as all are that are positive and of any size; the
     * others (exponent, coupling, creep) by their value.
     */
    public boolean isLogarithmic() {
      return this != LOSSY_EXPONENT && this != COUPLING && this != CREEP;
    }
  }

  @Override
  public String toString() {
    return kind.words() + " of " + part;
  }
}
