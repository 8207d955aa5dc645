package conewise.simulator.box;

import java.util.ArrayList;
import java.util.List;

/** Puts a box together part by part. Not safe for use by several threads. */
public final class BoxBuilder {
  private final Air air;
  private final List<Space> spaces = new ArrayList<>();
  private final List<Opening> openings = new ArrayList<>();
  private final List<Wiring> closedLoops = new ArrayList<>();

  BoxBuilder(Air air) {
    this.air = air;
  }

  /** Adds an air space without lining. */
  public BoxBuilder space(String name, double volumeLitre) {
    return space(Space.litres(name, volumeLitre));
  }

  /** Adds an air space. */
  public BoxBuilder space(Space space) {
    spaces.add(space);
    return this;
  }

  /** Adds a driver whose cone faces the outside. */
  public BoxBuilder driver(String name, Driver driver, String rear) {
    return opening(new Opening.DriverOpening(name, driver, Space.OUTSIDE, rear));
  }

  /** Adds any opening. */
  public BoxBuilder opening(Opening opening) {
    openings.add(opening);
    return this;
  }

  /** Adds a vent that tunes a space already added. */
  public BoxBuilder vent(String name, String space, double tuningHz, double quality) {
    return opening(Opening.Vent.tuning(name, air, find(space), tuningHz, quality));
  }

  /** Adds a leak out of a space already added. */
  public BoxBuilder leak(String name, String space, double quality, double atHz) {
    return opening(Opening.Leak.ofQuality(name, air, find(space), quality, atHz));
  }

  /** Adds a wiring whose two ends touch, apart from the terminals. */
  public BoxBuilder closedLoop(Wiring loop) {
    closedLoops.add(loop);
    return this;
  }

  /** Connects the terminals: the box is complete. */
  public Box wired(Wiring terminals) {
    return new Box(air, spaces, openings, terminals, closedLoops);
  }

  private Space find(String name) {
    return spaces.stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "There is no space \"" + name + "\" yet; add it before what opens into it."));
  }
}
