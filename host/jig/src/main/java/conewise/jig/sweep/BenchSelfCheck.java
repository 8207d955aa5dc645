package conewise.jig.sweep;

import conewise.analysis.bench.BenchCheck;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.bench.BenchLimits;
import conewise.analysis.excitation.Comb;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.RecordOrder;
import conewise.jig.client.Recording;
import conewise.jig.client.Wave;
import conewise.protocol.JigIdentity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Looks at the bench before a sweep: listens without drive for a voltage that is not the jig's,
 * reads the DC resistance from two small steady levels, and finds a drive level at which neither
 * channel clips. About 3 s of jig time.
 */
public final class BenchSelfCheck {

  /** Without drive: half a second, 26 periods of 50 Hz hum. */
  private static final double IDLE_SECONDS = 0.5;

  /** Steady level: the cone of a box rings down in some tenths of a second. */
  private static final double SETTLE_SECONDS = 0.4;

  private static final double STEADY_SECONDS = 0.25;

  /** Half the full level: 0.4 V at the bridge, 30 mA into 4 ohm; no cone moves a millimetre. */
  private static final int STEADY_SHARE = 2;

  /** A trial of the level hears a quarter of the comb, which may miss its highest peak. */
  private static final double TRIAL_SECONDS = 0.26;

  /**
   * Less than this to the comb's tones and open to direct current is a capacitor in series. Open
   * clips read some kilohm of noise this way, 10 microfarad 100 ohm in the middle of the comb.
   */
  private static final double MOST_THROUGH_CAPACITOR_OHM = 400;

  private static final String AT_THE_END =
      "a steady level stood at the end of the converter's range";

  private static final double USED_RANGE = 0.8;

  private static final int TRIALS = 3;

  /** A trial that clips is followed by one at a quarter of its level. */
  private static final int TRIAL_LOWER_BY = 4;

  /**
   * Standard uncertainty of the difference of two steady levels in codes: a half step of rounding
   * at each, all values within equally likely (0.41), and a bent scale of half a step (datasheet of
   * the ATmega328P, integral nonlinearity, typical).
   */
  private static final double STEADY_CODES = 0.65;

  private final Comb comb;
  private final SweepSettings settings;
  private final BenchCheck bench = BenchCheck.standard();
  private final BenchLimits limits = BenchLimits.standard();

  /**
   * A check for a sweep.
   *
   * @param comb what the drive level is tried with
   */
  public BenchSelfCheck(Comb comb) {
    this(comb, SweepSettings.standard());
  }

  BenchSelfCheck(Comb comb, SweepSettings settings) {
    this.comb = comb;
    this.settings = settings;
  }

  /**
   * Looks at the bench. The drive is off afterwards.
   *
   * @throws JigFaultException when the jig does not do what is asked, after repeats
   */
  public SelfCheckReport look(JigClient client, SweepListener listener) throws JigFaultException {
    Tracker tracker = new Tracker(listener);
    SelfCheckReport report = look(client, new RecordTaker(client, tracker), tracker, 0, 1);
    tracker.done();
    return report;
  }

  /**
   * Listens to the terminals without drive. About half a second of jig time.
   *
   * @return the record and what is in it; its DC resistance was not read, its level is the full one
   * @throws JigFaultException when the jig does not do what is asked, after repeats
   */
  public SelfCheckReport listen(JigClient client, SweepListener listener) throws JigFaultException {
    Tracker tracker = new Tracker(listener);
    SelfCheckReport report = listen(client, new RecordTaker(client, tracker), tracker, 0, 1);
    tracker.done();
    return report;
  }

  SelfCheckReport listen(
      JigClient client, RecordTaker taker, Tracker tracker, double from, double to)
      throws JigFaultException {
    tracker.stage("listening to the terminals", from, to);
    Capture idle = taker.idle(frames(client, IDLE_SECONDS, 0)).capture();
    return new SelfCheckReport(
        idle,
        Outcome.none("the look at the bench was no more than a listening"),
        client.identity().drive().levelMax(),
        bench.idle(idle));
  }

  SelfCheckReport look(JigClient client, RecordTaker taker, Tracker tracker, double from, double to)
      throws JigFaultException {
    double third = (to - from) / 3;
    int full = client.identity().drive().levelMax();
    SelfCheckReport heard = listen(client, taker, tracker, from, from + third);
    Capture idle = heard.idle();
    List<BenchFinding> findings = new ArrayList<>(heard.findings());
    if (findings.stream().anyMatch(BenchFinding::spoils)) {
      // Whatever drives the terminals, the jig does not drive against it.
      return new SelfCheckReport(
          idle, Outcome.none("nothing was driven into terminals that are not quiet"), 1, findings);
    }
    tracker.stage("reading the DC resistance", from + third, from + 2 * third);
    Outcome<ImpedancePoint> dc = dcResistance(client, taker, Math.max(1, full / STEADY_SHARE));
    findings.addAll(
        dc instanceof Outcome.NoResult<ImpedancePoint> none
            ? List.of(noSteadyCurrent(client, taker, none.because()))
            : terminals(dc));
    int level = full;
    if (findings.stream().noneMatch(BenchFinding::spoils)) {
      tracker.stage("trying the drive level", from + 2 * third, to);
      level = level(client, taker, full, findings);
    }
    findings.sort(Comparator.comparing(finding -> !finding.spoils()));
    return new SelfCheckReport(idle, dc, level, findings);
  }

  private static RecordOrder frames(JigClient client, double seconds, double skipSeconds) {
    double frameSeconds = 2 * client.identity().tickSeconds();
    return RecordOrder.raw(
        (int) Math.max(2, Math.round(seconds / frameSeconds)),
        (int) Math.round(skipSeconds / frameSeconds));
  }

  private static Outcome<ImpedancePoint> dcResistance(
      JigClient client, RecordTaker taker, int level) throws JigFaultException {
    RecordOrder order = frames(client, STEADY_SECONDS, SETTLE_SECONDS);
    Recording up = taker.of(new Wave.Steady(level), order);
    Recording down = taker.of(new Wave.Steady(-level), order);
    if (up.touchedRail() || down.touchedRail()) {
      return Outcome.none(AT_THE_END);
    }
    Outcome<ImpedancePoint> read = ImpedanceEstimator.dcResistance(down.capture(), up.capture());
    if (read instanceof Outcome.Found<ImpedancePoint> found) {
      return withConvertersSteps(found.value(), client.identity(), down.capture(), up.capture());
    }
    return read;
  }

  /** Adds what the converter's steps leave open to the uncertainty that the noise shows. */
  private static Outcome<ImpedancePoint> withConvertersSteps(
      ImpedancePoint point, JigIdentity identity, Capture down, Capture up) {
    double volt = STEADY_CODES * Math.abs(identity.channels().get(0).perCode());
    double ampere = STEADY_CODES * Math.abs(identity.channels().get(1).perCode());
    double current =
        Math.abs(mean(up.currentAmpere().values()) - mean(down.currentAmpere().values()));
    if (current < 4 * ampere) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "the steady current changed by %.2g A, less than four converter steps",
              current));
    }
    double u = Math.hypot(volt, point.resistanceOhm() * ampere) / current;
    double noise = point.uncertainty().map(ImpedanceUncertainty::varianceResistance).orElse(0.0);
    return Outcome.found(
        new ImpedancePoint(
            0,
            point.resistanceOhm(),
            0,
            Optional.of(new ImpedanceUncertainty(noise + u * u, 0, 0))));
  }

  private static double mean(double[] values) {
    double sum = 0;
    for (double value : values) {
      sum += value;
    }
    return sum / values.length;
  }

  /**
   * The impedance that an alternating current meets where no steady one flows, in ohm, as voltage
   * over current of a stretch of the comb: effective values, noise and all.
   */
  private double alternatingOhm(JigClient client, RecordTaker taker) throws JigFaultException {
    int level = Math.max(1, client.identity().drive().levelMax() / 2);
    Capture capture =
        taker
            .of(
                QuickSweep.wave(comb, client, level),
                comb.table(),
                frames(client, TRIAL_SECONDS, TRIAL_SECONDS / 2))
            .capture();
    return effective(capture.voltageVolt().values()) / effective(capture.currentAmpere().values());
  }

  private static double effective(double[] values) {
    double mean = mean(values);
    double sum = 0;
    for (double value : values) {
      sum += (value - mean) * (value - mean);
    }
    return Math.sqrt(sum / values.length);
  }

  private BenchFinding noSteadyCurrent(JigClient client, RecordTaker taker, String because)
      throws JigFaultException {
    double alternatingOhm =
        because.equals(AT_THE_END) ? Double.POSITIVE_INFINITY : alternatingOhm(client, taker);
    if (alternatingOhm < MOST_THROUGH_CAPACITOR_OHM) {
      return new BenchFinding(
          Kind.OPEN_TERMINALS,
          true,
          String.format(
              Locale.ROOT,
              "A capacitor is in series with the terminals: alternating current flows as through"
                  + " %.3g ohm, and steady current hardly at all.",
              alternatingOhm),
          "Measure on the box's side of the capacitor, or bridge it: without steady current the box"
              + " cannot be judged.");
    }
    return new BenchFinding(
        Kind.OPEN_TERMINALS,
        true,
        "Hardly any steady current flows into the terminals: " + because + ".",
        "Check that both clips hold and that the box is wired.");
  }

  private List<BenchFinding> terminals(Outcome<ImpedancePoint> dc) {
    double ohm = ((Outcome.Found<ImpedancePoint>) dc).value().resistanceOhm();
    if (ohm < limits.lowestOhm()) {
      return List.of(
          new BenchFinding(
              Kind.SHORTED_TERMINALS,
              true,
              String.format(
                  Locale.ROOT,
                  "The terminals read %.2f ohm at DC; a box reads at least %.2f ohm.",
                  ohm,
                  limits.lowestOhm()),
              "Look for clips that touch, a wiring mistake, or an amplifier still connected."));
    }
    return otherBox(((Outcome.Found<ImpedancePoint>) dc).value());
  }

  /**
   * A box that no fault of its plan makes read so; by the nominal scale, whose doubt is allowed.
   */
  private List<BenchFinding> otherBox(ImpedancePoint dc) {
    double noise = dc.standardUncertaintyOhm().orElse(0.0) / dc.resistanceOhm();
    double doubt = Math.hypot(noise, settings.nominalUncertainty());
    return settings
        .expected()
        .filter(box -> !box.allows(dc.resistanceOhm(), doubt))
        .map(
            box ->
                List.of(
                    new BenchFinding(
                        Kind.OTHER_BOX,
                        true,
                        box.refusal(dc.resistanceOhm()),
                        "Compare job, plan and box. If the job is right, measure coil by coil with"
                            + " a meter, links removed.")))
        .orElse(List.of());
  }

  private int level(JigClient client, RecordTaker taker, int full, List<BenchFinding> findings)
      throws JigFaultException {
    int level = Math.max(1, full / 2);
    for (int trial = 1; trial <= TRIALS; trial++) {
      Recording recording =
          taker.of(
              QuickSweep.wave(comb, client, level),
              comb.table(),
              frames(client, TRIAL_SECONDS, TRIAL_SECONDS / 2));
      if (!recording.touchedRail()) {
        double used = Math.max(used(client, recording, 0), used(client, recording, 1));
        double most = used > 0 ? level * USED_RANGE / used : full;
        return (int) Math.max(1, Math.min(full, most));
      }
      level = Math.max(1, level / TRIAL_LOWER_BY);
    }
    findings.add(
        new BenchFinding(
            Kind.CLIPPED,
            true,
            "The converter's range is passed even at drive level " + level + " of " + full + ".",
            "Look for a voltage on the terminals that is not the jig's, then for a fault in it."));
    return level;
  }

  /** The share of a channel's half range that its codes took, from its resting code. */
  private static double used(JigClient client, Recording recording, int channel) {
    double rest = client.identity().channels().get(channel).offsetCode();
    double up = (recording.highCodes().get(channel) - rest) / (recording.codes() - 1 - rest);
    double down = (rest - recording.lowCodes().get(channel)) / rest;
    return Math.max(up, down);
  }
}
