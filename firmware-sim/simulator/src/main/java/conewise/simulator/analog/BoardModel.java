package conewise.simulator.analog;

import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring.ForeignVoltage;
import conewise.simulator.dynamics.DiscreteModel;
import java.util.SplittableRandom;

/**
 * A box on a jig as a text file of numbers, so that a board which runs its own firmware in an
 * emulator can be given the same world as a virtual jig.
 *
 * <p>The form of the file is described in {@code firmware-sim/emulation/README.md}. It holds the
 * linear step from tick to tick, scales and bend of the converter, and the limits of the bridge
 * beyond which that step no longer holds. A limited bridge and a loose clip cannot be written: the
 * reader of the file reports the first, and the second is refused here.
 */
public final class BoardModel {
  private static final int VERSION = 1;

  private BoardModel() {}

  /**
   * The file's text.
   *
   * @param seed of the converter's bend, as for {@link VirtualAnalog}; the reader has a noise of
   *     its own
   * @throws IllegalArgumentException if the jig has a loose clip
   */
  public static String text(Box box, JigImperfections jig, long seed) {
    if (jig.contact().loose()) {
      throw new IllegalArgumentException(
          "The clip is loose: the equations then change from tick to tick, which a model file"
              + " cannot hold. Use a jig whose clip is not loose.");
    }
    AnalogEquations equations = AnalogEquations.of(box, jig, jig.contact().ohm(), false);
    JigHardware hardware = JigHardware.nominal();
    DiscreteModel model = equations.system().hold(hardware.tickSeconds());
    StringBuilder text = new StringBuilder();
    line(text, "conewise-model", VERSION);
    line(text, "tick_seconds", model.tickSeconds());
    line(text, "drive", hardware.midScale(), hardware.voltPerLevel() * jig.driveGain());
    line(text, "limits", jig.bridgeLimitVolt(), jig.bridgeLimitAmpere());
    line(text, "codes", hardware.converterCodes());
    line(text, "noise_codes", jig.converter().noiseCodes());
    line(text, "states", model.states().size());
    line(text, "inputs", model.inputs().size());
    // The second input stands for a limited bridge, which this model has not.
    line(text, "source", 0, 0, 0);
    for (ForeignVoltage source : equations.foreign()) {
      line(text, "source", source.steadyVolt(), source.peakVolt(), source.frequencyHz());
    }
    channels(text, hardware, jig);
    bend(text, hardware.converterCodes(), jig.converter(), seed);
    line(text, "x", model.initial());
    rows(text, "A", model.a());
    rows(text, "B", model.b());
    rows(text, "C", model.c());
    rows(text, "D", model.d());
    return text.toString();
  }

  private static void channels(StringBuilder text, JigHardware hardware, JigImperfections jig) {
    JigImperfections.Amplifier[] amplifiers = {jig.voltage(), jig.current(), jig.sound()};
    for (int channel = 0; channel < amplifiers.length; channel++) {
      JigHardware.Channel nominal = hardware.channels().get(channel);
      line(
          text,
          "channel",
          nominal.offsetCode() + amplifiers[channel].offsetCodes(),
          amplifiers[channel].gain() / nominal.perCode());
    }
  }

  /** The bend that {@link VirtualAnalog} has with the same seed, at each code. */
  private static void bend(StringBuilder text, int codes, Converter converter, long seed) {
    if (converter.bendCodes() == 0) {
      line(text, "bends", 0);
      return;
    }
    SplittableRandom random = new SplittableRandom(seed);
    random.split(); // the clip's
    Converter.Running running = new Converter.Running(converter, codes, random.split());
    double[] bends = new double[codes];
    for (int code = 0; code < codes; code++) {
      bends[code] = running.bend(code);
    }
    line(text, "bends", codes);
    line(text, "bend", bends);
  }

  private static void rows(StringBuilder text, String name, double[][] matrix) {
    for (double[] row : matrix) {
      line(text, name, row);
    }
  }

  private static void line(StringBuilder text, String name, double... values) {
    text.append(name);
    for (double value : values) {
      text.append(' ')
          .append(
              value == Math.rint(value) && Math.abs(value) < 1e9
                  ? whole(value)
                  : Double.toString(value));
    }
    text.append('\n');
  }

  private static String whole(double value) {
    return Long.toString((long) value);
  }
}
