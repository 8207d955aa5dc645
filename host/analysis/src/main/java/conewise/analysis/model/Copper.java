package conewise.analysis.model;

/** Copper wire, of which voice coils and leads are made. */
public final class Copper {
  /** Relative rise of resistance for each kelvin, from 20 degrees (NBS Handbook 100, 1966). */
  public static final double PER_KELVIN = 0.00393;

  private static final double REFERENCE_CELSIUS = 20;

  private Copper() {}

  /** Resistance at a temperature over that at 20 degrees Celsius. */
  public static double factorAt(double celsius) {
    return 1 + PER_KELVIN * (celsius - REFERENCE_CELSIUS);
  }
}
