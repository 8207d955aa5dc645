package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import java.util.Locale;
import java.util.Optional;

/** What a cone did, in the words that people type and files hold: out, in, hardly. */
public final class MotionWords {
  private MotionWords() {}

  /** The word of a motion. */
  public static String of(Motion motion) {
    return motion.name().toLowerCase(Locale.ROOT);
  }

  /** The motion of a word, in letters of either case; none when it is another word. */
  public static Optional<Motion> read(String word) {
    for (Motion motion : Motion.values()) {
      if (of(motion).equals(word.strip().toLowerCase(Locale.ROOT))) {
        return Optional.of(motion);
      }
    }
    return Optional.empty();
  }
}
