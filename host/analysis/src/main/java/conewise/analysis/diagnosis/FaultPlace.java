package conewise.analysis.diagnosis;

/** A place of a box where a fault can be, and by which its rate is counted. */
public enum FaultPlace {
  BOX("box", "boxes"),
  DRIVER("driver", "drivers"),
  COIL("coil", "coils"),
  VENT("vent", "vents"),
  SPACE("space", "spaces"),
  RADIATOR("passive radiator", "passive radiators");

  private final String one;
  private final String many;

  FaultPlace(String one, String many) {
    this.one = one;
    this.many = many;
  }

  /** One of them, for people: "passive radiator". */
  public String one() {
    return one;
  }

  /** Several of them, for people: "boxes". */
  public String many() {
    return many;
  }
}
