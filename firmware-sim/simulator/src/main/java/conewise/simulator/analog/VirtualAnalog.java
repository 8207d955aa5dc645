package conewise.simulator.analog;

import static conewise.simulator.dynamics.Limits.require;

import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring.ForeignVoltage;
import conewise.simulator.dynamics.DiscreteModel;
import conewise.simulator.dynamics.Stepper;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A jig's analog side and a box, as equations that are exact from tick to tick.
 *
 * <p>While the bridge is within its limits one linear model holds drive filter, bridge, box and
 * channels. A tick that would leave the limits is taken again with the bridge's voltage held: at
 * the voltage limit, or at whatever voltage makes the current end the tick at its limit. A loose
 * clip exchanges the model between ticks. The same seed gives the same codes.
 */
public final class VirtualAnalog implements AnalogWorld {
  private static final double[] LOOSENESS = {0, 0.3, 1};
  private static final int SOUND = 2;

  private final JigHardware hardware;
  private final JigImperfections jig;
  private final List<ForeignVoltage> foreign;
  private final Stepper.Columns[] free;
  private final Stepper.Columns[] limited;
  private final Stepper stepper;
  private final SplittableRandom clip;
  private final Converter.Running converter;
  private final RoomNoise room;
  private final double[] inputs;
  private final JigImperfections.Amplifier[] amplifiers;
  private int level;
  private long ticks;

  /** A box on a jig, from rest. */
  public VirtualAnalog(Box box, JigImperfections jig, long seed) {
    this.hardware = JigHardware.nominal();
    this.jig = jig;
    int levels = jig.contact().loose() ? LOOSENESS.length : 1;
    free = new Stepper.Columns[levels];
    limited = new Stepper.Columns[levels];
    List<ForeignVoltage> sources = List.of();
    for (int k = 0; k < levels; k++) {
      double ohm = jig.contact().ohm() + LOOSENESS[k] * jig.contact().looseOhm();
      AnalogEquations equations = AnalogEquations.of(box, jig, ohm, false);
      sources = equations.foreign();
      free[k] = columns(equations);
      limited[k] = columns(AnalogEquations.of(box, jig, ohm, true));
    }
    foreign = sources;
    stepper = free[0].model().stepper();
    inputs = new double[2 + foreign.size()];
    SplittableRandom random = new SplittableRandom(seed);
    clip = random.split();
    converter = new Converter.Running(jig.converter(), hardware.converterCodes(), random.split());
    room = new RoomNoise(jig.microphone(), hardware.tickSeconds(), random.split());
    amplifiers = new JigImperfections.Amplifier[] {jig.voltage(), jig.current(), jig.sound()};
  }

  private Stepper.Columns columns(AnalogEquations equations) {
    return new Stepper.Columns(equations.system().hold(hardware.tickSeconds()));
  }

  /**
   * The exact step of a box on a jig while nothing is limited and no clip moves.
   *
   * <p>Inputs, outputs and units are those of {@link AnalogEquations}.
   */
  public static DiscreteModel model(Box box, JigImperfections jig) {
    return AnalogEquations.of(box, jig, jig.contact().ohm(), false)
        .system()
        .hold(JigHardware.nominal().tickSeconds());
  }

  @Override
  public JigHardware hardware() {
    return hardware;
  }

  @Override
  public void tick(int driveCode) {
    require("drive code", driveCode, 0, (1 << hardware.driveBits()) - 1, "");
    moveClip();
    inputs[0] = (driveCode - hardware.midScale()) * hardware.voltPerLevel() * jig.driveGain();
    inputs[1] = 0;
    double seconds = ticks * hardware.tickSeconds();
    for (int k = 0; k < foreign.size(); k++) {
      ForeignVoltage source = foreign.get(k);
      inputs[2 + k] =
          source.steadyVolt()
              + source.peakVolt() * StrictMath.sin(2 * Math.PI * source.frequencyHz() * seconds);
    }
    stepper.step(inputs);
    double wanted = stepper.output(AnalogEquations.BRIDGE_WANTED, inputs);
    double ampere = stepper.output(AnalogEquations.BRIDGE_CURRENT, inputs);
    if (Math.abs(wanted) > jig.bridgeLimitVolt() || Math.abs(ampere) > jig.bridgeLimitAmpere()) {
      stepper.back();
      stepLimited(wanted);
    }
    room.tick();
    ticks++;
  }

  private void moveClip() {
    if (free.length > 1
        && clip.nextDouble() < jig.contact().jumpsPerSecond() * hardware.tickSeconds()) {
      level = clip.nextInt(free.length);
      stepper.use(free[level]);
    }
  }

  private void stepLimited(double wanted) {
    stepper.use(limited[level]);
    double volt = jig.bridgeLimitVolt();
    double ampere = jig.bridgeLimitAmpere();
    inputs[1] = 0;
    double atZero = stepper.outputAfter(AnalogEquations.BRIDGE_CURRENT, inputs);
    inputs[1] = 1;
    double perVolt = stepper.outputAfter(AnalogEquations.BRIDGE_CURRENT, inputs) - atZero;
    double held = wanted;
    if (perVolt > 0) {
      double lowest = (-ampere - atZero) / perVolt;
      double highest = (ampere - atZero) / perVolt;
      held = Math.max(lowest, Math.min(highest, held));
    }
    inputs[1] = Math.max(-volt, Math.min(volt, held));
    stepper.step(inputs);
    stepper.use(free[level]);
  }

  @Override
  public int convert(int channel) {
    require("channel", channel, 0, amplifiers.length - 1, "");
    JigHardware.Channel nominal = hardware.channels().get(channel);
    JigImperfections.Amplifier amplifier = amplifiers[channel];
    double value = stepper.output(AnalogEquations.VOLTAGE + channel, inputs);
    if (channel == SOUND) {
      value += room.pascal();
    }
    return converter.convert(
        nominal.offsetCode()
            + amplifier.offsetCodes()
            + amplifier.gain() * value / nominal.perCode());
  }
}
