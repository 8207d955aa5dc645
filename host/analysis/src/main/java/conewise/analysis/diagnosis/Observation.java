package conewise.analysis.diagnosis;

import conewise.analysis.plan.PlannedBox;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Something that a person or another sensor saw of a box, and that faults bear on. */
public sealed interface Observation {

  /** How probable this is to be seen of a box. */
  double likelihood(Candidate candidate);

  /** What was seen, for people. */
  String words();

  /**
   * The pop test: a small direct voltage for less than a second, + to the terminal marked +.
   *
   * @param driver whose cone was watched
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

  /**
   * The pop test of several cones by one microphone. A microphone whose leads are swapped turns all
   * of them round together.
   *
   * @param seen what each driver's cone did as it was heard, at least one
   * @param proven whether the microphone has heard a driver rightly that is known to be right
   */
  record HeardPops(Map<String, Motion> seen, boolean proven) implements Observation {
    /** One microphone in twenty that nobody has proved is the wrong way round (a guess). */
    private static final double TURNED = 0.05;

    /** One proof in ten thousand is mistaken (a guess). */
    private static final double TURNED_THOUGH_PROVEN = 0.0001;

    public HeardPops {
      seen = Map.copyOf(seen);
      if (seen.isEmpty()) {
        throw new IllegalArgumentException("a microphone heard at least 1 cone; it had 0");
      }
    }

    @Override
    public double likelihood(Candidate candidate) {
      double turned = proven ? TURNED_THOUGH_PROVEN : TURNED;
      return (1 - turned) * all(candidate, false) + turned * all(candidate, true);
    }

    private double all(Candidate candidate, boolean turnedRound) {
      return seen.entrySet().stream()
          .map(e -> new Pop(e.getKey(), turnedRound ? e.getValue().turned() : e.getValue()))
          .mapToDouble(pop -> pop.likelihood(candidate))
          .reduce(1, (a, b) -> a * b);
    }

    @Override
    public String words() {
      return new TreeMap<>(seen)
          .entrySet().stream()
              .map(e -> new Pop(e.getKey(), e.getValue()).words())
              .collect(Collectors.joining(", "));
    }
  }

  /**
   * What a hand at a vent felt while a tone at the tuning played, the amplifier set as for a good
   * box.
   *
   * @param vent at which vent
   * @param seen what was felt
   * @param toneHz the tone's frequency
   * @param planned the box as planned, of which a strong wind is expected
   */
  record PortWind(String vent, Wind seen, double toneHz, Candidate planned) implements Observation {
    /** A fifth of the planned flow is weak, a tenth is none; a hand is no meter (guesses). */
    private static final Sensed HAND = new Sensed(-20, -9, 4, 0.03);

    /** The test with a tone at the tuning that the plan has. */
    public static PortWind of(PlannedBox plan, String vent, Wind seen) {
      Candidate planned = new Candidate(plan.model(), plan.unknowns());
      return new PortWind(vent, seen, TestTones.of(planned.model()).portHz(vent), planned);
    }

    @Override
    public double likelihood(Candidate candidate) {
      double expected = planned.flow(toneHz).through(vent).abs();
      double there = candidate.flow(toneHz).through(vent).abs();
      double decibel = Sensed.decibel(there, expected);
      return switch (seen) {
        case STRONG -> HAND.high(decibel);
        case WEAK -> HAND.middle(decibel);
        case NONE -> HAND.low(decibel);
      };
    }

    @Override
    public String words() {
      return "there was " + seen.words() + " at vent " + vent;
    }
  }

  /**
   * How a tone above the tuning sounded after one driver's leads were swapped, at the same setting
   * and place.
   *
   * @param driver whose leads
   * @param heard how it sounded then
   * @param toneHz the tone's frequency
   */
  record LevelWithLeadsSwapped(String driver, Loudness heard, double toneHz)
      implements Observation {
    /**
     * About 2 dB are heard for certain where the two come one after the other (common practice);
     * one in a hundred takes the one for the other.
     */
    private static final Sensed EAR = new Sensed(-2, 2, 1.5, 0.01);

    /** The test with the tone that {@link TestTones#swap} takes for the plan. */
    public static LevelWithLeadsSwapped of(PlannedBox plan, String driver, Loudness heard) {
      double hz = TestTones.of(plan.model()).swap(driver).frequencyHz();
      return new LevelWithLeadsSwapped(driver, heard, hz);
    }

    @Override
    public double likelihood(Candidate candidate) {
      double decibel = candidate.tones().changeDecibel(driver, toneHz);
      return switch (heard) {
        case LOUDER -> EAR.high(decibel);
        case QUIETER -> EAR.low(decibel);
        case SAME -> EAR.middle(decibel);
      };
    }

    @Override
    public String words() {
      return "with the leads of driver " + driver + " swapped it was " + heard.words();
    }
  }
}
