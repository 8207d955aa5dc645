package conewise.analysis.bench;

import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Looks at captures for what is wrong with the bench rather than with the box. Every check gives
 * nothing, or a finding with its value and its limit.
 */
public final class BenchCheck {

  private final BenchLimits limits;

  /** A check by limits of one's own; {@link #standard()} has the usual ones. */
  public BenchCheck(BenchLimits limits) {
    this.limits = limits;
  }

  /** Checks with the limits of this project's jig. */
  public static BenchCheck standard() {
    return new BenchCheck(BenchLimits.standard());
  }

  /**
   * What stands on the terminals before the drive starts.
   *
   * @param capture recorded with the drive at rest, about a quarter of a second or more
   * @return findings, those that spoil the measurement first; empty when the terminals are quiet
   */
  public List<BenchFinding> idle(Capture capture) {
    List<BenchFinding> findings = new ArrayList<>();
    SampledChannel voltage = capture.voltageVolt();
    clipped(voltage, "voltage").ifPresent(findings::add);
    double mean = Arrays.stream(voltage.values()).average().orElseThrow();
    double effective = effectiveAround(voltage.values(), mean);
    Optional<Hum> hum = Hum.in(voltage);
    boolean mostlyHum = hum.isPresent() && hum.get().effective() > 0.7 * effective;
    if (Math.abs(mean) > limits.restingVolt()) {
      findings.add(foreign(mean, limits.restingVolt(), "of DC"));
    }
    if (effective > limits.idleVolt()) {
      findings.add(
          foreign(
              effective,
              limits.idleVolt(),
              mostlyHum
                  ? String.format(Locale.ROOT, "of %.0f Hz hum", hum.get().mainsHz())
                  : "effective of sound or noise"));
    }
    return worstFirst(findings);
  }

  /**
   * What a driven capture shows.
   *
   * @param capture the capture
   * @param estimate what was estimated from it
   * @return findings, those that spoil the measurement first
   */
  public List<BenchFinding> driven(Capture capture, ImpedanceEstimate estimate) {
    List<BenchFinding> findings = new ArrayList<>(clipping(capture));
    LooseClip.find(capture, estimate, limits).ifPresent(findings::add);
    hum(capture, estimate).ifPresent(findings::add);
    findings.addAll(curve(estimate.curve()));
    return worstFirst(findings);
  }

  /** Saturated samples in either channel of any capture. */
  public List<BenchFinding> clipping(Capture capture) {
    List<BenchFinding> findings = new ArrayList<>();
    clipped(capture.voltageVolt(), "voltage").ifPresent(findings::add);
    clipped(capture.currentAmpere(), "current").ifPresent(findings::add);
    return findings;
  }

  /**
   * What a whole curve shows of the terminals. Call it before a correction for the leads as well as
   * after: it needs only moduli and uncertainties.
   */
  public List<BenchFinding> curve(ImpedanceCurve curve) {
    List<BenchFinding> findings = new ArrayList<>();
    double lowest =
        curve.points().stream().mapToDouble(ImpedancePoint::modulusOhm).min().orElseThrow();
    double highest =
        curve.points().stream().mapToDouble(ImpedancePoint::modulusOhm).max().orElseThrow();
    if (lowest > limits.highestOhm()) {
      findings.add(open(String.format(Locale.ROOT, "%.4g ohm or more", lowest)));
    } else if (highest < limits.lowestOhm()) {
      findings.add(
          new BenchFinding(
              Kind.SHORTED_TERMINALS,
              true,
              String.format(
                  Locale.ROOT,
                  "the terminals read %.3g ohm or less at every frequency; a box reads more than"
                      + " %.3g ohm",
                  highest,
                  limits.lowestOhm()),
              "look for clips that touch, and unplug any amplifier, then measure again"));
    }
    double noise = middleRelativeUncertainty(curve);
    if (noise > limits.noiseFraction()) {
      findings.add(
          new BenchFinding(
              Kind.TOO_NOISY,
              true,
              String.format(
                  Locale.ROOT,
                  "the impedance is known to %.2g %% at the middle point; at most %.2g %% can be"
                      + " judged",
                  100 * noise,
                  100 * limits.noiseFraction()),
              "quiet the room, keep the leads short and away from mains, then measure again"));
    }
    return worstFirst(findings);
  }

  /**
   * What to say when a capture gave no curve because hardly any current flowed.
   *
   * @param capture the driven capture
   * @param because the reason that the estimator gave
   * @return open terminals, when voltage stood there and next to no current flowed; else nothing
   */
  public Optional<BenchFinding> noCurve(Capture capture, String because) {
    double volt = effectiveAroundMean(capture.voltageVolt());
    double ampere = effectiveAroundMean(capture.currentAmpere());
    return volt > limits.highestOhm() * ampere
        ? Optional.of(
            open(
                String.format(
                    Locale.ROOT, "%.3g V drive no more than %.2g A (%s)", volt, ampere, because)))
        : Optional.empty();
  }

  private BenchFinding open(String seen) {
    return new BenchFinding(
        Kind.OPEN_TERMINALS,
        true,
        String.format(
            Locale.ROOT,
            "nothing seems to be on the terminals: %s; a box reads below %.4g ohm",
            seen,
            limits.highestOhm()),
        "check both clips and the leads, then measure again");
  }

  private static BenchFinding foreign(double volt, double limit, String what) {
    return new BenchFinding(
        Kind.FOREIGN_VOLTAGE,
        true,
        String.format(
            Locale.ROOT,
            "%.3g V %s stands on the terminals with the jig at rest; at most %.2g V may",
            volt,
            what,
            limit),
        "take any amplifier or battery off the box before you touch the leads, then measure again");
  }

  private Optional<BenchFinding> clipped(SampledChannel channel, String name) {
    int saturated = channel.saturatedCount();
    double most = limits.saturatedFraction() * channel.length();
    if (saturated <= most) {
      return Optional.empty();
    }
    return Optional.of(
        new BenchFinding(
            Kind.CLIPPED,
            true,
            String.format(
                Locale.ROOT,
                "the %s stood at the end of its range in %d of %d samples; at most %.0f may",
                name,
                saturated,
                channel.length(),
                Math.floor(most)),
            "lower the level, and check that nothing else drives the box, then measure again"));
  }

  /** Hum is looked for in what the tones leave over, and held against the whole signal. */
  private Optional<BenchFinding> hum(Capture capture, ImpedanceEstimate estimate) {
    double voltage = humFraction(capture.voltageVolt(), estimate.voltage().residuals());
    double current = humFraction(capture.currentAmpere(), estimate.current().residuals());
    double worse = Math.max(voltage, current);
    if (!(worse > limits.humFraction())) {
      return Optional.empty();
    }
    return Optional.of(
        new BenchFinding(
            Kind.HUM,
            false,
            String.format(
                Locale.ROOT,
                "mains hum makes up %.2g %% of the %s; at most %.2g %% goes unsaid",
                100 * worse,
                voltage > current ? "voltage" : "current",
                100 * limits.humFraction()),
            "run a laptop from its battery, keep the leads away from mains, then measure again"));
  }

  private static double humFraction(SampledChannel channel, double[] residuals) {
    double whole = effectiveAroundMean(channel);
    SampledChannel left =
        SampledChannel.of(residuals, channel.firstInstantSeconds(), channel.intervalSeconds());
    return Hum.in(left).map(hum -> hum.effective() / whole).orElse(0.0);
  }

  /** The middle one of all points' relative standard uncertainties; 0 when none is stated. */
  private static double middleRelativeUncertainty(ImpedanceCurve curve) {
    double[] sorted =
        curve.points().stream()
            .filter(point -> point.uncertainty().isPresent() && point.modulusOhm() > 0)
            .mapToDouble(
                point ->
                    point
                            .uncertainty()
                            .map(ImpedanceUncertainty::standardUncertaintyOhm)
                            .orElseThrow()
                        / point.modulusOhm())
            .sorted()
            .toArray();
    return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
  }

  private static double effectiveAroundMean(SampledChannel channel) {
    return effectiveAround(
        channel.values(), Arrays.stream(channel.values()).average().orElseThrow());
  }

  private static double effectiveAround(double[] values, double mean) {
    return Math.sqrt(
        Arrays.stream(values).map(x -> (x - mean) * (x - mean)).average().orElseThrow());
  }

  private static List<BenchFinding> worstFirst(List<BenchFinding> findings) {
    findings.sort(Comparator.comparing(finding -> !finding.spoils()));
    return List.copyOf(findings);
  }
}
