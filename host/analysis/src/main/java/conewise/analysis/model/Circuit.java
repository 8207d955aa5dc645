package conewise.analysis.model;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** What hangs at the terminals: a tree of series and parallel. */
public sealed interface Circuit {

  /**
   * A voice coil.
   *
   * @param driver the driver's name
   * @param number which of its coils, from 1
   * @param reversed true when its second lead comes first
   */
  record Coil(String driver, int number, boolean reversed) implements Circuit {}

  /**
   * A resistance: leads, a joint.
   *
   * @param name its name
   * @param ohm its value, more than 0
   */
  record Resistance(String name, double ohm) implements Circuit {
    public Resistance {
      Require.named("a resistance", name);
      Require.positive("the resistance " + name, ohm, "ohm");
    }
  }

  /** A gap: no current passes. */
  record Gap() implements Circuit {}

  /** A bridge without resistance. */
  record Bridge() implements Circuit {}

  /**
   * Parts one after the other.
   *
   * @param parts at least one, from + to -
   */
  record Series(List<Circuit> parts) implements Circuit {
    public Series {
      parts = requireParts(parts);
    }
  }

  /**
   * Parts side by side.
   *
   * @param parts at least one
   */
  record Parallel(List<Circuit> parts) implements Circuit {
    public Parallel {
      parts = requireParts(parts);
    }
  }

  /** One coil of a driver, counted from 1, the right way round. */
  static Circuit coil(String driver, int number) {
    return new Coil(driver, number, false);
  }

  /** Parts one after the other, at least one. */
  static Circuit series(Circuit... parts) {
    return new Series(List.of(parts));
  }

  /** Parts side by side, at least one. */
  static Circuit parallel(Circuit... parts) {
    return new Parallel(List.of(parts));
  }

  /** The same tree with every coil of one driver the other way round. */
  default Circuit withReversed(String driver) {
    return withCoils(
        coil ->
            coil.driver().equals(driver)
                ? new Coil(driver, coil.number(), !coil.reversed())
                : coil);
  }

  /** The same tree with something else in the place of each coil. */
  default Circuit withCoils(Function<Coil, Circuit> inPlaceOf) {
    if (this instanceof Coil coil) {
      return inPlaceOf.apply(coil);
    }
    if (this instanceof Series series) {
      return new Series(series.parts().stream().map(part -> part.withCoils(inPlaceOf)).toList());
    }
    if (this instanceof Parallel parallel) {
      return new Parallel(
          parallel.parts().stream().map(part -> part.withCoils(inPlaceOf)).toList());
    }
    return this;
  }

  /** The coils in it, in their order. */
  default List<Coil> coils() {
    List<Coil> coils = new ArrayList<>();
    withCoils(
        coil -> {
          coils.add(coil);
          return coil;
        });
    return coils;
  }

  private static List<Circuit> requireParts(List<Circuit> parts) {
    if (parts.isEmpty()) {
      throw new IllegalArgumentException("a series or parallel circuit has parts; it had 0");
    }
    return List.copyOf(parts);
  }
}
