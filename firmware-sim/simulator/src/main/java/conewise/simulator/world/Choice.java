package conewise.simulator.world;

import java.util.ArrayList;
import java.util.List;

/** Two sets of keys of which one must be given whole and the other not at all. */
final class Choice {
  private final String what;
  private final List<String> firstGiven = new ArrayList<>();
  private final List<String> secondGiven = new ArrayList<>();
  private final List<String> first = new ArrayList<>();
  private final List<String> second = new ArrayList<>();

  private Choice(String what) {
    this.what = what;
  }

  static Choice of(String what) {
    return new Choice(what);
  }

  Choice first(String key, Double value) {
    return note(first, firstGiven, key, value);
  }

  Choice second(String key, Double value) {
    return note(second, secondGiven, key, value);
  }

  private Choice note(List<String> all, List<String> given, String key, Double value) {
    all.add(key);
    if (value != null) {
      given.add(key);
    }
    return this;
  }

  /**
   * Whether the first set is the one that is given.
   *
   * @throws IllegalArgumentException unless exactly one set is given whole
   */
  boolean isFirst() {
    boolean firstWhole = firstGiven.equals(first) && secondGiven.isEmpty();
    boolean secondWhole = secondGiven.equals(second) && firstGiven.isEmpty();
    if (firstWhole == secondWhole) {
      List<String> given = new ArrayList<>(firstGiven);
      given.addAll(secondGiven);
      throw WorldAssembly.refuse(
          what
              + " has "
              + (given.isEmpty() ? "none" : given)
              + "; it needs either all of "
              + first
              + " or all of "
              + second
              + ".");
    }
    return firstWhole;
  }
}
