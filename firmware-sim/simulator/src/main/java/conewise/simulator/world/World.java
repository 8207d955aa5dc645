package conewise.simulator.world;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.zip.CRC32;

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

  /**
   * The serial number of this world's jig: jigs of the same parts have the same one, whatever is on
   * their clips, and jigs of other parts another.
   */
  public String jigSerial() {
    CRC32 sum = new CRC32();
    sum.update(jig.parts().getBytes(StandardCharsets.UTF_8));
    return String.format(Locale.ROOT, "VIRTUAL-%08X", sum.getValue());
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
