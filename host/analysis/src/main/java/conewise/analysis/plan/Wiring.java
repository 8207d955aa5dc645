package conewise.analysis.plan;

import java.util.List;

/**
 * How the voice coils of a box are joined: a tree of series and parallel whose leaves are coils.
 */
public sealed interface Wiring {

  /**
   * One voice coil.
   *
   * @param driver the driver's name in the plan
   * @param number which of its coils, from 1
   */
  record Coil(String driver, int number) implements Wiring {}

  /** Parts one after the other: the same current through each. At least two. */
  record Series(List<Wiring> parts) implements Wiring {
    public Series {
      parts = List.copyOf(parts);
      requireTwo("series", parts);
    }
  }

  /** Parts side by side: the same voltage across each. At least two. */
  record Parallel(List<Wiring> parts) implements Wiring {
    public Parallel {
      parts = List.copyOf(parts);
      requireTwo("parallel", parts);
    }
  }

  /** Every coil named, in order. */
  default List<Coil> coils() {
    if (this instanceof Coil coil) {
      return List.of(coil);
    }
    List<Wiring> parts = this instanceof Series s ? s.parts() : ((Parallel) this).parts();
    return parts.stream().flatMap(part -> part.coils().stream()).toList();
  }

  private static void requireTwo(String word, List<Wiring> parts) {
    if (parts.size() < 2) {
      throw new IllegalArgumentException(
          word + " joins at least two parts; it was given " + parts.size());
    }
  }
}
