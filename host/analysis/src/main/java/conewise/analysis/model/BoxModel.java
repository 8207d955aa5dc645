package conewise.analysis.model;

import conewise.analysis.model.Opening.Mounted;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * A box: spaces, openings between them and the circuit at its terminals. Sealed, vented, bandpass,
 * isobaric, shared and separate chambers are all of this kind; a driver in free air has no space.
 *
 * @param air the air in and around it
 * @param spaces its air spaces, none for drivers in free air
 * @param openings at least one driver; vents, passive radiators and leaks
 * @param circuit how the coils are joined; a coil that is not named in it is not connected
 */
public record BoxModel(Air air, List<Space> spaces, List<Opening> openings, Circuit circuit) {

  public BoxModel {
    spaces = List.copyOf(spaces);
    openings = List.copyOf(openings);
    Set<String> names = new HashSet<>();
    for (Space space : spaces) {
      requireNew(names, space.name());
    }
    for (Opening opening : openings) {
      requireNew(names, opening.name());
      requireSpace(spaces, opening, opening.behind());
      requireSpace(spaces, opening, opening.before());
    }
    if (openings.stream().noneMatch(Mounted.class::isInstance)) {
      throw new IllegalArgumentException("a box has at least 1 driver; it had 0");
    }
    requireCoils(circuit, openings, new HashSet<>());
    requireOneValueEach(circuit, new HashMap<>());
  }

  /** A driver in free air, its coils in series. */
  public static BoxModel freeAir(Driver driver) {
    List<Circuit> coils = new ArrayList<>();
    for (int number = 1; number <= driver.coils().size(); number++) {
      coils.add(Circuit.coil("driver", number));
    }
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(),
        List.of(new Mounted("driver", driver, Space.OUTSIDE, Space.OUTSIDE)),
        new Circuit.Series(coils));
  }

  /** The same box with another circuit. */
  public BoxModel withCircuit(Circuit other) {
    return new BoxModel(air, spaces, openings, other);
  }

  /** True when a current can pass between the terminals. */
  public boolean conducts() {
    return Loops.of(circuit).isPresent();
  }

  /** The same box without an opening, as when a vent is closed. */
  public BoxModel without(String opening) {
    if (openings.stream().noneMatch(each -> each.name().equals(opening))) {
      throw new IllegalArgumentException("no opening is named " + opening);
    }
    return new BoxModel(
        air,
        spaces,
        openings.stream().filter(each -> !each.name().equals(opening)).toList(),
        circuit);
  }

  /** The same box with one more opening. */
  public BoxModel with(Opening opening) {
    List<Opening> more = new ArrayList<>(openings);
    more.add(opening);
    return new BoxModel(air, spaces, more, circuit);
  }

  /** The same box with a driver changed. */
  public BoxModel withDriver(String name, UnaryOperator<Driver> change) {
    driver(name);
    return new BoxModel(
        air,
        spaces,
        openings.stream()
            .map(
                each ->
                    each instanceof Mounted m && m.name().equals(name)
                        ? new Mounted(name, change.apply(m.driver()), m.behind(), m.before())
                        : each)
            .toList(),
        circuit);
  }

  /** The drivers, in the order of the openings. */
  public List<Mounted> drivers() {
    return openings.stream().filter(Mounted.class::isInstance).map(Mounted.class::cast).toList();
  }

  /** The driver of a name. */
  public Driver driver(String name) {
    return drivers().stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no driver is named " + name))
        .driver();
  }

  private static void requireNew(Set<String> names, String name) {
    if (!names.add(name)) {
      throw new IllegalArgumentException("the name " + name + " stands twice in a box");
    }
  }

  private static void requireSpace(List<Space> spaces, Opening opening, String end) {
    if (!end.equals(Space.OUTSIDE) && spaces.stream().noneMatch(s -> s.name().equals(end))) {
      throw new IllegalArgumentException(
          opening.name() + " leads to " + end + ", which is no space of the box");
    }
  }

  /** A name stands for one number: two resistances may share it only with the same value. */
  private static void requireOneValueEach(Circuit circuit, Map<String, Double> known) {
    if (circuit instanceof Circuit.Series series) {
      series.parts().forEach(part -> requireOneValueEach(part, known));
    } else if (circuit instanceof Circuit.Parallel parallel) {
      parallel.parts().forEach(part -> requireOneValueEach(part, known));
    } else if (circuit instanceof Circuit.Resistance part) {
      Double other = known.putIfAbsent(part.name(), part.ohm());
      if (other != null && other != part.ohm()) {
        throw new IllegalArgumentException(
            "the resistance "
                + part.name()
                + " stands twice in the circuit, with "
                + other
                + " and with "
                + part.ohm()
                + " ohm; give each its own name");
      }
    }
  }

  private static void requireCoils(Circuit circuit, List<Opening> openings, Set<Circuit> seen) {
    if (circuit instanceof Circuit.Series series) {
      series.parts().forEach(part -> requireCoils(part, openings, seen));
    } else if (circuit instanceof Circuit.Parallel parallel) {
      parallel.parts().forEach(part -> requireCoils(part, openings, seen));
    } else if (circuit instanceof Circuit.Coil coil) {
      boolean there =
          openings.stream()
              .anyMatch(
                  each ->
                      each instanceof Mounted m
                          && m.name().equals(coil.driver())
                          && coil.number() >= 1
                          && coil.number() <= m.driver().coils().size());
      if (!there || !seen.add(new Circuit.Coil(coil.driver(), coil.number(), false))) {
        throw new IllegalArgumentException(
            "the circuit names coil "
                + coil.number()
                + " of "
                + coil.driver()
                + (there ? " twice" : ", which the box does not have"));
      }
    }
  }
}
