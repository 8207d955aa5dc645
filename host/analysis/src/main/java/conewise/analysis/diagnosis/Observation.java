package conewise.analysis.diagnosis;

import java.util.Map;

/** Something that a person or another sensor saw of a box, and that faults bear on. */
public sealed interface Observation {

  /** How probable this is to be seen of a box. */
  double likelihood(Candidate candidate);

  /** What was seen, for people. */
  String words();

  /**
   * The pop test: a small direct voltage for less than a second, + to the terminal marked +.
   *
   * @param driver whose cone was watched, or heard by a microphone before it
   * @param seen what it did
   */
  record Pop(String driver, Motion seen) implements Observation {
    /** A person who watches mistakes one pop in two thousand (a guess). */
    private static final double MISTAKEN = 0.0005;

    /** A dead driver's cone goes a little the other way, and so is taken for reversed. */
    private static final double DEAD_SEEN_IN = 0.35;

    @Override
    public double likelihood(Candidate candidate) {
      Map<String, Motion> motions = Motion.of(candidate.model());
      Motion expected = motions.get(driver);
      if (expected == null) {
        return 1;
      }
      if (expected == Motion.HARDLY) {
        return seen == Motion.OUT
            ? MISTAKEN
            : seen == Motion.IN ? DEAD_SEEN_IN : 1 - DEAD_SEEN_IN - MISTAKEN;
      }
      return expected == seen ? 1 - MISTAKEN : MISTAKEN / 2;
    }

    @Override
    public String words() {
      return "the cone of driver " + driver + " " + seen.words();
    }
  }
}
