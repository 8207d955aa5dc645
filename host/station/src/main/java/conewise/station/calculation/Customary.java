package conewise.station.calculation;

/** The units of the bench beside those that values are kept in (NIST SP 811, appendix B). */
final class Customary {
  static final double MM = 1e3;
  static final double LITRES = 1e3;
  static final double CM2 = 1e4;
  static final double MM2 = 1e6;
  static final double MS = 1e3;
  static final double PERCENT = 100;
  static final double INCHES = 1 / 0.0254;
  static final double FEET = 1 / 0.3048;
  static final double CUBIC_INCHES = INCHES * INCHES * INCHES;
  static final double SQUARE_INCHES = INCHES * INCHES;

  private Customary() {}

  static double fahrenheit(double celsius) {
    return celsius * 9 / 5 + 32;
  }
}
