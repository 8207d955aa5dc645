package conewise.simulator.world;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;

/**
 * A box on a jig on a bench.
 *
 * @param name one word
 * @param about what it is, in a sentence
 * @param truth what is right or wrong with it, in a sentence
 * @param box the box
 * @param jig the jig and the bench
 * @param seed of all that is random
 */
public record World(
    String name, String about, String truth, Box box, JigImperfections jig, long seed) {
  /** The world from rest; each call starts anew, with the same seed. */
  public AnalogWorld start() {
    return new VirtualAnalog(box, jig, seed);
  }

  /** The same world with another box. */
  public World with(Box other) {
    return new World(name, about, truth, other, jig, seed);
  }

  /** The same world with another jig. */
  public World with(JigImperfections other) {
    return new World(name, about, truth, box, other, seed);
  }

  /** The same world with another seed. */
  public World withSeed(long other) {
    return new World(name, about, truth, box, jig, other);
  }
}
