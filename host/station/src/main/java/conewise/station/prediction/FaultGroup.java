package conewise.station.prediction;

import conewise.analysis.diagnosis.FaultKind;

/** Faults that belong together, for a reader. */
public enum FaultGroup {
  POLARITY("P", "Polarity"),
  WIRING("W", "Wiring"),
  DRIVERS("D", "Drivers"),
  BOX("B", "Box and air");

  private final String letter;
  private final String title;

  FaultGroup(String letter, String title) {
    this.letter = letter;
    this.title = title;
  }

  /** The group of a kind. */
  static FaultGroup of(FaultKind kind) {
    return switch (kind) {
      case BOX_REVERSED, DRIVER_REVERSED, COIL_REVERSED -> POLARITY;
      case COIL_OPEN,
          COIL_SHORTED,
          DRIVER_DISCONNECTED,
          WIRED_OTHERWISE,
          RESISTANCE_ADDED,
          SOURCE_CONNECTED ->
          WIRING;
      case WRONG_DRIVER, DRIVER_ASTRAY, CONE_SEIZED, CONE_RUBS -> DRIVERS;
      default -> BOX;
    };
  }

  /** What the names of its curves begin with. */
  String letter() {
    return letter;
  }

  /** For people. */
  public String title() {
    return title;
  }
}
