package conewise.station.lab;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** The eight experiments. */
public enum Experiment {
  FREE_AIR("free-air", "Free-air resonance"),
  ADDED_MASS("added-mass", "Added mass"),
  CLOSED_BOX("closed-box", "Closed test box"),
  VENTED_BOX("vented-box", "Vented box and the four readings of its tuning"),
  LOSSES("losses", "Vent closed, and the losses"),
  CIRCLE("circle", "The circle of the motional impedance"),
  VOICE_COIL("voice-coil", "Voice coil"),
  POLARITY("polarity", "Polarity in shared and separate chambers");

  private final String word;
  private final String title;

  Experiment(String word, String title) {
    this.word = word;
    this.title = title;
  }

  /** Its name on the command line, in the answers and of its folder. */
  public String word() {
    return word;
  }

  /** Its name for people. */
  public String title() {
    return title;
  }

  /** The experiment of that word. */
  public static Optional<Experiment> named(String word) {
    return Arrays.stream(values()).filter(each -> each.word.equals(word)).findFirst();
  }

  /** All words, for people. */
  public static String words() {
    return Arrays.stream(values()).map(Experiment::word).collect(Collectors.joining(", "));
  }
}
