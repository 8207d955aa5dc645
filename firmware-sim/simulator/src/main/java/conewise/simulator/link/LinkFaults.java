package conewise.simulator.link;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What goes wrong on a link: an immutable, seeded plan. Faults strike single bytes, by rate or at
 * the nth byte of a direction, and any number of them may be combined. The same plan on the same
 * traffic does the same.
 *
 * @param seed of everything that is drawn
 * @param rates faults that strike by chance
 * @param strikes faults at a certain byte
 */
public record LinkFaults(long seed, List<Rate> rates, List<Strike> strikes) {
  private static final LinkFaults NONE = new LinkFaults(0, List.of(), List.of());

  /** The way a byte goes. */
  public enum Direction {
    /** From the host to the jig. */
    TO_JIG,
    /** From the jig to the host. */
    TO_HOST
  }

  /** What happens to a byte. */
  public enum Fault {
    /** It is lost. */
    DROP,
    /** One of its bits, drawn, is inverted. */
    FLIP,
    /** It comes twice. */
    DUPLICATE,
    /** It and all after it come {@value MemoryLink#DELAY_MILLISECONDS} ms late. */
    DELAY,
    /** The host's read ends with it; on the way to the jig, a short pause follows it. */
    SPLIT,
    /** The jig resets instead: this byte and what else was under way is lost. */
    REBOOT,
    /** The cable is pulled instead: the host's calls fail from here on. */
    UNPLUG,
    /** Nothing passes from here on, either way, and nobody is told. */
    FREEZE
  }

  /**
   * A fault by chance.
   *
   * @param direction which bytes
   * @param fault what happens
   * @param probability for each byte, 0 to 1
   */
  public record Rate(Direction direction, Fault fault, double probability) {
    /** Checks the probability. */
    public Rate {
      if (!(probability >= 0 && probability <= 1)) {
        throw new IllegalArgumentException(
            String.format(Locale.ROOT, "a probability runs from 0 to 1, but is %s", probability));
      }
    }
  }

  /**
   * A fault at a certain byte.
   *
   * @param direction which bytes are counted
   * @param fault what happens
   * @param index which byte since the link was made, from 0
   */
  public record Strike(Direction direction, Fault fault, long index) {
    /** Checks the index. */
    public Strike {
      if (index < 0) {
        throw new IllegalArgumentException("a byte's index runs from 0, but is " + index);
      }
    }
  }

  /** Copies the lists. */
  public LinkFaults {
    rates = List.copyOf(rates);
    strikes = List.copyOf(strikes);
  }

  /** A sound link. */
  public static LinkFaults none() {
    return NONE;
  }

  /** The same plan with other dice. */
  public LinkFaults seeded(long seed) {
    return new LinkFaults(seed, rates, strikes);
  }

  /** This plan, and a fault that strikes each byte with some probability, 0 to 1. */
  public LinkFaults often(Direction direction, Fault fault, double probability) {
    List<Rate> more = new ArrayList<>(rates);
    more.add(new Rate(direction, fault, probability));
    return new LinkFaults(seed, more, strikes);
  }

  /** This plan, and a fault at the byte of an index from 0. */
  public LinkFaults at(Direction direction, Fault fault, long index) {
    List<Strike> more = new ArrayList<>(strikes);
    more.add(new Strike(direction, fault, index));
    return new LinkFaults(seed, rates, more);
  }

  /** Whether nothing goes wrong. */
  public boolean isNone() {
    return rates.isEmpty() && strikes.isEmpty();
  }
}
