package conewise.station.calculation;

import java.util.List;

/** Everything that can be worked out. */
public final class Calculations {
  private static final List<Calculation> ALL =
      List.of(
          new LoadCalculation(),
          new CoilsCalculation(),
          new VentCalculation(),
          new AirCalculation(),
          new DelayCalculation(),
          new TwoSourcesCalculation(),
          new LeadCalculation());

  private Calculations() {}

  /** All calculations, in the order in which to show them. */
  public static List<Calculation> all() {
    return ALL;
  }
}
