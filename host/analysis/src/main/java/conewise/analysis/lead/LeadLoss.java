package conewise.analysis.lead;

/**
 * What a lead takes before a load, from an amplifier that holds its voltage (a divider of two
 * resistances, by Ohm's law).
 *
 * @param leadOhm both conductors
 * @param loadOhm the load: a rated impedance, or a modulus at one frequency taken as a resistance,
 *     for which the loss is the greatest
 */
public record LeadLoss(double leadOhm, double loadOhm) {
  private static final double DECIBELS = 20;

  public LeadLoss {
    Positive.require("the resistance of a lead", leadOhm, "ohm");
    Positive.require("the load at a lead", loadOhm, "ohm");
  }

  /** How much lower the level at the load is than without the lead, in decibels. */
  public double decibel() {
    return DECIBELS * Math.log1p(leadOhm / loadOhm) / Math.log(10);
  }

  /** The load's power over what it would have without the lead. */
  public double powerLeft() {
    double voltageLeft = loadOhm / (leadOhm + loadOhm);
    return voltageLeft * voltageLeft;
  }

  /** How much of the power that the amplifier gives warms the lead. */
  public double powerInLead() {
    return leadOhm / (leadOhm + loadOhm);
  }

  /**
   * What a driver's electrical Q, and no other, is multiplied by: the lead stands in series with
   * the voice coil (R. H. Small, J. Audio Eng. Soc. 20, 1972).
   *
   * @param dcOhm DC resistance of the load
   */
  public double electricalQFactor(double dcOhm) {
    Positive.require("the DC resistance of the load", dcOhm, "ohm");
    return 1 + leadOhm / dcOhm;
  }
}
