package conewise.station.planfile;

/**
 * How far built parts lie from what a plan says of them where it gives no tolerance: relative
 * standard deviations (common practice, from memory; datasheet values wander by 10 to 20 %).
 */
final class UsualSpread {
  static final double RESONANCE = 0.12;
  static final double MECHANICAL_Q = 0.3;
  static final double ELECTRICAL_Q = 0.15;
  static final double EQUIVALENT_VOLUME = 0.15;
  static final double COIL = 0.05;

  /** A coil's inductance falls as frequency rises, and datasheets differ in where they state it. */
  static final double INDUCTANCE = 0.6;

  static final double CONE_AREA = 0.05;
  static final double VOLUME = 0.03;
  static final double VENT_TUNING = 0.03;
  static final double RADIATOR = 0.1;

  private UsualSpread() {}
}
