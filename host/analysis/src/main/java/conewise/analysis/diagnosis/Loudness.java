package conewise.analysis.diagnosis;

/** How a tone sounds after one driver's leads were swapped, against before. */
public enum Loudness {
  LOUDER("louder"),
  QUIETER("quieter"),
  SAME("as loud as before");

  private final String words;

  Loudness(String words) {
    this.words = words;
  }

  /** For people: "louder". */
  public String words() {
    return words;
  }
}
