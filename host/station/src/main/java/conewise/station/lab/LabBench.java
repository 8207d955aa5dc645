package conewise.station.lab;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.Wave;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Optional;

/**
 * The bench of the lab: a virtual jig of exact scales, with the noise and bend of a usual
 * converter, whose clips have no resistance.
 *
 * <p>What is kept is rounded, samples to a microvolt and a microampere, impedances to six digits:
 * so that the last bit of a sine, in which machines may differ, does not reach a file.
 */
final class LabBench {
  /** Half of full drive: low enough that no driver of the lab clips. */
  private static final int LEVEL_PART = 2;

  /** Settling before the tone by hand, in periods. */
  private static final int SETTLED_SECONDS = 3;

  private static final MathContext DIGITS = new MathContext(6);
  private static final double MICRO = 1e6;

  private final ProgressLine progress;
  private final StopRequest stop;

  LabBench(ProgressLine progress, StopRequest stop) {
    this.progress = progress;
    this.stop = stop;
  }

  private static World world(Student student, Experiment experiment, Measured measured) {
    JigImperfections jig = JigImperfections.nominal().with(Contact.tight(0));
    long seed = student.random(experiment.word() + " " + measured.stem()).nextLong();
    return new World("lab", measured.words(), "kept by the instructor", measured.box(), jig, seed);
  }

  /** A quick sweep. */
  Obtained sweep(Student student, Experiment experiment, Measured measured) throws CommandFailure {
    SweepSettings settings = SweepSettings.standard().withScaleUncertainty(0);
    World world = world(student, experiment, measured);
    try (JigClient client = new JigChoice.Virtual(world).connect(progress)) {
      SweepOutcome outcome =
          new SweepRun(SweepKind.QUICK, settings, Optional.empty()).run(client, progress, stop);
      if (outcome instanceof SweepResult result
          && result.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found) {
        Capture raw = result.captures().get(result.captures().size() - 1);
        return new Obtained(rounded(found.value()), rounded(raw));
      }
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "The data of " + experiment.word() + " were not made: the sweep came to no curve.");
    }
  }

  /** One period of a tone, {@link HandTone#SAMPLES} samples of each channel. */
  Capture tone(Student student, Experiment experiment, Measured measured, HandTone tone)
      throws CommandFailure {
    World world = world(student, experiment, measured);
    try (JigClient client = new JigChoice.Virtual(world).connect(progress)) {
      int level = client.identity().drive().levelMax() / LEVEL_PART;
      client.play(new Wave.Tone(tone.step(), level));
      double framesASecond = 1 / (2 * client.identity().tickSeconds());
      int period = HandTone.SAMPLES * tone.decimate();
      int skip = (int) Math.ceil(SETTLED_SECONDS * framesASecond / period) * period;
      RecordOrder order =
          new RecordOrder(2, HandTone.SAMPLES, skip / tone.decimate(), tone.decimate());
      return rounded(client.record(order, (done, all) -> !stop.asked()).capture());
    } catch (JigFaultException failed) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED, failed.fault().sentence() + " " + failed.fault().nextStep(), failed);
    }
  }

  private static Capture rounded(Capture capture) {
    return new Capture(rounded(capture.voltageVolt(), 0), delayed(capture));
  }

  private static SampledChannel delayed(Capture capture) {
    double delay =
        capture.currentAmpere().firstInstantSeconds() - capture.voltageVolt().firstInstantSeconds();
    return rounded(capture.currentAmpere(), digits(delay));
  }

  private static SampledChannel rounded(SampledChannel channel, double first) {
    double[] values = new double[channel.length()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.rint(channel.values()[i] * MICRO) / MICRO;
    }
    return new SampledChannel(
        values,
        first,
        channel.intervalSeconds(),
        digits(channel.lowRail()),
        digits(channel.highRail()));
  }

  private static ImpedanceCurve rounded(ImpedanceCurve curve) {
    return new ImpedanceCurve(
        curve.points().stream().map(LabBench::rounded).toList(), curve.scaleUncertainty());
  }

  private static ImpedancePoint rounded(ImpedancePoint point) {
    Optional<ImpedanceUncertainty> uncertainty =
        point
            .standardUncertaintyOhm()
            .map(LabBench::digits)
            .map(
                ohm ->
                    point.frequencyHz() == 0
                        ? ImpedanceUncertainty.ofResistance(ohm)
                        : ImpedanceUncertainty.circular(ohm));
    return new ImpedancePoint(
        point.frequencyHz(),
        digits(point.resistanceOhm()),
        digits(point.reactanceOhm()),
        uncertainty);
  }

  private static double digits(double value) {
    return Double.isFinite(value) ? new BigDecimal(value).round(DIGITS).doubleValue() : value;
  }
}
