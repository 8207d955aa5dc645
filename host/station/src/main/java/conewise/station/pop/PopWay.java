package conewise.station.pop;

/** How a pop test is made. */
public enum PopWay {
  /** The jig's steps, heard by a microphone before each cone. */
  MICROPHONE("microphone"),
  /** The jig's step, watched. */
  JIG_STEP("jig-step"),
  /** A dry cell on the terminals, watched. */
  BATTERY("battery");

  private final String word;

  PopWay(String word) {
    this.word = word;
  }

  /** For files. */
  public String word() {
    return word;
  }
}
