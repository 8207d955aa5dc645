package conewise.analysis.polarity;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * Which way the cones of one box set out, from what a microphone heard before each of them.
 *
 * <p>A microphone before one cone hears its neighbours as well. Before a flat piston of radius b it
 * hears p = density x acceleration x b nearly, of a like piston at the distance d an amount of b /
 * (2 d) of that (Rayleigh, Theory of Sound, section 278): under a quarter, since two cones and
 * their frames are at least some 2.2 b apart. So a cone that no current moves is heard with up to a
 * quarter from each neighbour, with their sign; one that is reversed among right ones is heard that
 * much weaker, and against them. What is heard before one cone is therefore told only beside the
 * others, and what lies between the two is not told at all.
 */
public final class ConesOfABox {

  /** From this part of the strongest on a cone is moved by its own current. */
  private static final double MOVED = 0.7;

  /** Against the strongest this part will do: neighbours are heard with their own sign. */
  private static final double MOVED_AGAINST = 0.25;

  /** Up to this part of the strongest it is the others that are heard. */
  private static final double STILL = 0.35;

  /** Against the strongest: the air in the box pushes back within the time looked at. */
  private static final double STILL_AGAINST = 0.1;

  /** Among more, neighbours may outweigh a cone's own sound: none is told to stand still. */
  private static final int MOST_FOR_STILL = 4;

  /**
   * From three cones on, a small reversed one from which the microphone is held too far may be
   * drowned by two neighbours: what stands still must then be heard to follow them.
   */
  private static final int FEWEST_TO_DROWN = 3;

  private static final double FOLLOWS = 0.08;

  private final Map<String, String> kinds;
  private final Map<String, Outcome<FirstHalfCycle>> heard;
  private final boolean backward;

  private ConesOfABox(
      Map<String, String> kinds, Map<String, Outcome<FirstHalfCycle>> heard, boolean backward) {
    this.kinds = kinds;
    this.heard = heard;
    this.backward = backward;
  }

  /**
   * Tells them.
   *
   * @param kinds the kind of each driver that can be reached from outside, by the driver's name
   * @param heard what was heard before each driver, the microphone always as far from the cone
   * @param backward true when the microphone is known to make a rise of pressure negative
   * @return for each driver that was heard: which way its outer side set out, or why that cannot be
   *     told
   */
  public static Map<String, Outcome<Motion>> of(
      Map<String, String> kinds, Map<String, Outcome<FirstHalfCycle>> heard, boolean backward) {
    ConesOfABox box = new ConesOfABox(kinds, heard, backward);
    Map<String, Outcome<Motion>> motions = new LinkedHashMap<>();
    heard.forEach((driver, outcome) -> motions.put(driver, box.motion(driver, outcome)));
    return motions;
  }

  private Outcome<Motion> motion(String driver, Outcome<FirstHalfCycle> outcome) {
    if (outcome instanceof NoResult<FirstHalfCycle> none) {
      return Outcome.none(none.because());
    }
    for (String other : kinds.keySet()) {
      if (!(heard.get(other) instanceof Found<FirstHalfCycle>)) {
        return Outcome.none(
            "A cone that no current moves is told by comparison, and driver "
                + other
                + " was not heard. Hear every driver of the box in one go.");
      }
    }
    return beside(driver, value(driver));
  }

  private FirstHalfCycle value(String driver) {
    return ((Found<FirstHalfCycle>) heard.get(driver)).value();
  }

  private Outcome<Motion> beside(String driver, FirstHalfCycle own) {
    FirstHalfCycle strongestOfAll = strongest("");
    FirstHalfCycle strongest = strongest(kinds.getOrDefault(driver, ""));
    if (!strongestOfAll.isSure()) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "Too quiet: the steps make %.2g Pa, and %.2g Pa are needed to stand out of the room's"
                  + " noise. Hold the microphone 2 cm before the cone and keep the room quiet.",
              Math.abs(own.pressurePascal()),
              FirstHalfCycle.SURE_DEVIATIONS * own.noisePascal()));
    }
    double share = own.pascalPerAmpere() / strongest.pascalPerAmpere();
    double uncertain = 2 * own.noisePascal() / own.stepAmpere() / size(strongest);
    boolean ofTheLoud = size(strongest) > STILL * size(strongestOfAll);
    if (isStill(share, uncertain)) {
      return Outcome.found(Motion.HARDLY);
    }
    boolean moved = share >= MOVED || share <= -MOVED_AGAINST;
    if (moved && ofTheLoud && own.isSure()) {
      return Outcome.found(own.rises() == backward ? Motion.IN : Motion.OUT);
    }
    return Outcome.none(
        String.format(
            Locale.ROOT,
            "It is heard with %.0f %% of the strongest cone, too little to tell it from its"
                + " neighbours. Hold the microphone 1 to 2 cm before each cone, and hear all"
                + " again.",
            100 * size(own) / size(strongestOfAll)));
  }

  private boolean isStill(double share, double uncertain) {
    double least = kinds.size() < FEWEST_TO_DROWN ? -STILL_AGAINST : FOLLOWS;
    return kinds.size() <= MOST_FOR_STILL
        && share + uncertain <= STILL
        && share - uncertain >= least;
  }

  /** The same whatever the level of the drive was. */
  private static double size(FirstHalfCycle heard) {
    return Math.abs(heard.pascalPerAmpere());
  }

  /** Of a kind, or of all of them. */
  private FirstHalfCycle strongest(String kind) {
    FirstHalfCycle strongest = null;
    for (Map.Entry<String, String> each : kinds.entrySet()) {
      if (kind.isEmpty() || each.getValue().equals(kind)) {
        FirstHalfCycle value = value(each.getKey());
        strongest = strongest == null || size(value) > size(strongest) ? value : strongest;
      }
    }
    if (strongest == null) {
      throw new IllegalArgumentException("no driver of the kind \"" + kind + "\" can be reached");
    }
    return strongest;
  }
}
