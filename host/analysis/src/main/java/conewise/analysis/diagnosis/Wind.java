package conewise.analysis.diagnosis;

/** What a hand at a vent feels of a tone at the tuning, against a good box at the same setting. */
public enum Wind {
  STRONG("a strong wind"),
  WEAK("a weak wind"),
  NONE("no wind");

  private final String words;

  Wind(String words) {
    this.words = words;
  }

  /** For people: "a strong wind". */
  public String words() {
    return words;
  }
}
