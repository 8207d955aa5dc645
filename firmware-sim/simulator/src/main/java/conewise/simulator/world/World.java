package conewise.simulator.world;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;

/**
 * A box on a jig on a bench.
 *
 * @param name one word
 * @param description what it is, in a sentence
 * @param box the box
 * @param jig the jig and the bench
 * @param seed of all that is random
 */
public record World(String name, String description, Box box, JigImperfections jig, long seed) {
  /** The world from rest; each call starts anew, with the same seed. */
  public AnalogWorld start() {
    return new VirtualAnalog(box, jig, seed);
  }

  /** The same world with another box. */
  public World with(Box other) {
    return new World(name, description, other, jig, seed);
  }

  /** The same world with another jig. */
  public World with(JigImperfections other) {
    return new World(name, description, box, other, seed);
  }

  /** The same world with another seed. */
  public World withSeed(long other) {
    return new World(name, description, box, jig, other);
  }
}
