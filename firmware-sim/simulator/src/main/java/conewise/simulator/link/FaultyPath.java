package conewise.simulator.link;

import conewise.simulator.link.LinkFaults.Direction;
import conewise.simulator.link.LinkFaults.Fault;
import java.util.EnumSet;
import java.util.Random;
import java.util.Set;

/** One direction of a link: counts its bytes and says which faults strike each. */
final class FaultyPath {
  private final LinkFaults plan;
  private final Direction direction;
  private final Random random;
  private long index;

  FaultyPath(LinkFaults plan, Direction direction) {
    this.plan = plan;
    this.direction = direction;
    this.random = new Random(plan.seed() ^ direction.name().hashCode());
  }

  /** The faults of the next byte. */
  Set<Fault> next() {
    Set<Fault> faults = EnumSet.noneOf(Fault.class);
    for (LinkFaults.Rate rate : plan.rates()) {
      if (rate.direction() == direction && random.nextDouble() < rate.probability()) {
        faults.add(rate.fault());
      }
    }
    for (LinkFaults.Strike strike : plan.strikes()) {
      if (strike.direction() == direction && strike.index() == index) {
        faults.add(strike.fault());
      }
    }
    index++;
    return faults;
  }

  /** The byte with one bit inverted. */
  byte flip(byte octet) {
    return (byte) (octet ^ (1 << random.nextInt(8)));
  }
}
