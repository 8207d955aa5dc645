package conewise.analysis.learning;

/**
 * A figure of a box that is learned.
 *
 * @param part what it belongs to: a kind of driver, a vent, a space, a passive radiator; blank for
 *     the whole box
 * @param what which figure
 */
record FigureKind(String part, What what) {

  /** The figures, each with how it is called, its unit, and how far built parts usually stray. */
  enum What {
    RESONANCE("resonance", "Hz", 0.12),
    MECHANICAL_Q("mechanical Q", "", 0.3),
    ELECTRICAL_Q("electrical Q", "", 0.15),
    EQUIVALENT_VOLUME("equivalent volume", "m3", 0.15),
    COIL_RESISTANCE("coil resistance", "ohm", 0.05),
    VOLUME("volume", "m3", 0.03),
    VENT_TUNING("tuning", "Hz", 0.03),
    RADIATOR_RESONANCE("resonance", "Hz", 0.1),
    RADIATOR_Q("mechanical Q", "", 0.3),
    RADIATOR_VOLUME("equivalent volume", "m3", 0.1),
    DC_RESISTANCE("DC resistance", "ohm", 0.05),
    LOWEST_MODULUS("lowest |Z|", "ohm", 0.05),
    SPACE_TUNING("fitted tuning", "Hz", 0.03),
    CLOSED_RESONANCE("resonance in the box", "Hz", 0.1),
    LOSS_Q("loss Q", "", 0.3);

    private final String words;
    private final String unit;
    private final double usualSpread;

    What(String words, String unit, double usualSpread) {
      this.words = words;
      this.unit = unit;
      this.usualSpread = usualSpread;
    }
  }

  /** For people: "tuning of port". */
  String words() {
    return part.isEmpty() ? what.words : what.words + " of " + part;
  }

  /** Blank for a pure number. */
  String unit() {
    return what.unit;
  }

  /** Relative standard deviation that such figures usually have (common practice). */
  double usualSpread() {
    return what.usualSpread;
  }
}
