package conewise.simulator.box;

import conewise.simulator.box.Opening.DriverOpening;
import conewise.simulator.box.Wiring.CoilLeads;
import conewise.simulator.box.Wiring.CoilState;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * What is connected to the jig: air spaces, the openings between them, and the wiring of the coils.
 *
 * @param air the air
 * @param spaces enclosed spaces; none for a driver in free air or a plain electrical load
 * @param openings drivers, vents, passive radiators, leaks
 * @param terminals what lies between the terminals
 * @param closedLoops wirings whose two ends touch, apart from the terminals (idle coils with
 *     shorted leads); coils in no wiring have open leads
 */
public record Box(
    Air air,
    List<Space> spaces,
    List<Opening> openings,
    Wiring terminals,
    List<Wiring> closedLoops) {

  /** Checks that each name is given once, each reference is met and no coil is wired twice. */
  public Box {
    spaces = List.copyOf(spaces);
    openings = List.copyOf(openings);
    closedLoops = List.copyOf(closedLoops);
    Set<String> known = new HashSet<>(Set.of(Space.OUTSIDE));
    for (Space space : spaces) {
      requireNew(known, space.name());
    }
    Set<String> parts = new HashSet<>();
    Map<String, Integer> coils = new HashMap<>();
    for (Opening opening : openings) {
      requireNew(parts, opening.name());
      requireSpace(known, opening.name(), opening.front());
      requireSpace(known, opening.name(), opening.rear());
      if (opening instanceof DriverOpening driver) {
        coils.put(driver.name(), driver.driver().coils().size());
      }
    }
    Set<String> wired = new HashSet<>();
    terminals.mapCoils(leads -> check(leads, coils, wired));
    closedLoops.forEach(loop -> loop.mapCoils(leads -> check(leads, coils, wired)));
  }

  private static void requireNew(Set<String> known, String name) {
    if (!known.add(name)) {
      throw new IllegalArgumentException(
          "The name \"" + name + "\" is given twice; each needs its own.");
    }
  }

  private static void requireSpace(Set<String> known, String opening, String space) {
    if (!known.contains(space)) {
      throw new IllegalArgumentException(
          "\""
              + opening
              + "\" opens into \""
              + space
              + "\"; there are only "
              + sorted(known)
              + ".");
    }
  }

  private static List<String> sorted(Set<String> names) {
    return names.stream().sorted().toList();
  }

  private static CoilLeads check(CoilLeads leads, Map<String, Integer> coils, Set<String> wired) {
    Integer count = coils.get(leads.driver());
    if (count == null) {
      throw new IllegalArgumentException(
          "The wiring names driver \""
              + leads.driver()
              + "\"; the drivers are "
              + sorted(coils.keySet())
              + ".");
    }
    if (leads.coil() > count) {
      throw new IllegalArgumentException(
          "The wiring names coil "
              + leads.coil()
              + " of "
              + leads.driver()
              + "; it has "
              + count
              + ".");
    }
    requireNew(wired, leads.driver() + "." + leads.coil());
    return leads;
  }

  /** Starts to put a box together. */
  public static BoxBuilder in(Air air) {
    return new BoxBuilder(air);
  }

  /** A plain electrical load without any driver. */
  public static Box load(Wiring terminals) {
    return new Box(Air.ROOM, List.of(), List.of(), terminals, List.of());
  }

  /** A single driver with nothing but open air on both sides, all its coils in series. */
  public static Box freeAir(Driver driver) {
    List<Wiring> coils = new ArrayList<>();
    for (int k = 1; k <= driver.coils().size(); k++) {
      coils.add(Wiring.coil("driver", k));
    }
    Opening opening = new DriverOpening("driver", driver, Space.OUTSIDE, Space.OUTSIDE);
    return new Box(Air.ROOM, List.of(), List.of(opening), new Wiring.Series(coils), List.of());
  }

  /** The same box with other wiring at its terminals. */
  public Box withTerminals(Wiring wiring) {
    return new Box(air, spaces, openings, wiring, closedLoops);
  }

  /** The same box with the coil leads of its wiring changed as told. */
  public Box rewired(UnaryOperator<CoilLeads> change) {
    return withTerminals(terminals.mapCoils(change));
  }

  /** The same box with every coil of a driver reversed. */
  public Box withDriverReversed(String driver) {
    return rewired(leads -> leads.driver().equals(driver) ? reversed(leads) : leads);
  }

  /** The same box with one coil reversed. */
  public Box withCoilReversed(String driver, int coil) {
    return rewired(leads -> is(leads, driver, coil) ? reversed(leads) : leads);
  }

  /** The same box with one coil in another state. */
  public Box withCoil(String driver, int coil, CoilState state) {
    return rewired(
        leads ->
            is(leads, driver, coil) ? new CoilLeads(driver, coil, leads.reversed(), state) : leads);
  }

  /** The same box without an opening: a vent blocked, a passive radiator seized, a leak sealed. */
  public Box without(String opening) {
    return new Box(
        air,
        spaces,
        openings.stream().filter(each -> !each.name().equals(opening)).toList(),
        terminals,
        closedLoops);
  }

  /** The same box with an opening put in place of the one of the same name, or added. */
  public Box with(Opening opening) {
    List<Opening> changed = new ArrayList<>(openings);
    changed.removeIf(each -> each.name().equals(opening.name()));
    changed.add(opening);
    return new Box(air, spaces, changed, terminals, closedLoops);
  }

  private static boolean is(CoilLeads leads, String driver, int coil) {
    return leads.driver().equals(driver) && leads.coil() == coil;
  }

  private static CoilLeads reversed(CoilLeads leads) {
    return new CoilLeads(leads.driver(), leads.coil(), !leads.reversed(), leads.state());
  }
}
