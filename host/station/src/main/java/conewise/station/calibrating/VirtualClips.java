package conewise.station.calibrating;

import conewise.jig.client.JigClient;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.JigChoice;

/** A virtual jig's clips, which this program itself opens, joins and puts on a resistor. */
public final class VirtualClips implements Clips {

  /** The short is a piece of thick wire. */
  private static final double SHORT_OHM = 0.0005;

  private static final double OPEN_OHM = 1e7;

  private final World world;
  private final double resistorOhm;
  private final ProgressLine progress;

  /**
   * Virtual clips.
   *
   * @param world whose jig is meant; its box is taken off
   * @param resistorOhm what the resistor truly is
   */
  public VirtualClips(World world, double resistorOhm, ProgressLine progress) {
    this.world = world;
    this.resistorOhm = resistorOhm;
    this.progress = progress;
  }

  @Override
  public <T> T then(String instruction, CalibrationStep step, Measuring<T> measuring)
      throws CommandFailure {
    double ohm =
        switch (step) {
          case OPEN -> OPEN_OHM;
          case SHORT -> SHORT_OHM;
          case RESISTOR -> resistorOhm;
        };
    World loaded = world.with(Box.load(new Wiring.Resistance(ohm)));
    try (JigClient client = new JigChoice.Virtual(loaded).connect(progress)) {
      return measuring.with(client);
    }
  }

  @Override
  public void refused(String sentence) {
    // Nobody is there to do it otherwise; the last refusal ends the matter with its sentence.
  }
}
