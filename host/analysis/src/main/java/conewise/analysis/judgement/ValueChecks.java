package conewise.analysis.judgement;

import static conewise.analysis.judgement.Evidence.text;

import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.Checks.Name;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** The checks of one value each: resistance, lowest modulus, tuning, resonance, leak, peak. */
final class ValueChecks {
  /** IEC 60268-5, 16.1: the lowest modulus over the rated impedance. */
  static final double RATED_PART = 0.8;

  private static final double COVERAGE_FACTOR = 1.96;

  private static final String CALIBRATE =
      "Calibrate the jig with open and shorted terminals and a known resistor, then measure again.";

  /** Relative half-width of a resistance read at 0 Hz whose uncertainty nobody stated. */
  private static final double UNSTATED = 0.02;

  /** How far a fitted peak's height may be off, relative. */
  private static final double FIT_OF_PEAK = 0.02;

  private final Evidence evidence;
  private final Limits limits;

  ValueChecks(Evidence evidence) {
    this.evidence = evidence;
    this.limits = evidence.plan().limits();
  }

  static Interval dcLimits(Evidence evidence) {
    double planned = evidence.plannedOhm();
    double tolerance = evidence.plan().limits().dcToleranceFraction();
    return evidence
        .plan()
        .limits()
        .dcResistanceOhm()
        .orElse(new Interval(planned * (1 - tolerance), planned * (1 + tolerance)));
  }

  Check dcResistance() {
    return calibrateFirst(
        Checks.guarded(
            new Name("dc-resistance", "DC resistance", "DC resistance", "ohm"),
            dcOhm().map(this::withScale),
            dcLimits(evidence),
            "Check the wiring against the plan, coil by coil with a meter: too little resistance.",
            "Check the joints and each coil with a meter, links removed: too much resistance."));
  }

  /** Where the scale makes most of an interval that crosses a limit, only calibrating helps. */
  private Check calibrateFirst(Check check) {
    double scale = evidence.curve().scaleUncertainty();
    boolean byScale =
        check.decision() == Decision.UNDECIDED
            && check.reading() instanceof Found<Check.Reading> found
            && 2 * COVERAGE_FACTOR * scale * found.value().value()
                > (found.value().interval().high() - found.value().interval().low()) / 2;
    return byScale ? check.withNextStep(CALIBRATE) : check;
  }

  /** A value in ohm bears the scale's uncertainty; a ratio of two does not. */
  private Estimate withScale(Estimate ohm) {
    return ohm.scaledBy(evidence.curve().scaleUncertainty());
  }

  /** At 0 Hz where the curve has that point, else from the fit. */
  Outcome<Estimate> dcOhm() {
    ImpedancePoint first = evidence.curve().points().get(0);
    if (first.frequencyHz() == 0 && first.resistanceOhm() > 0) {
      double arm =
          first
              .uncertainty()
              .map(u -> COVERAGE_FACTOR * Math.sqrt(u.varianceResistance()))
              .orElse(UNSTATED * first.resistanceOhm());
      return Outcome.found(Estimate.within(first.resistanceOhm(), arm));
    }
    return evidence.features().dcResistanceOhm();
  }

  private Check ratedImpedance(double ratedOhm) {
    return calibrateFirst(
        Checks.guarded(
            new Name("rated-impedance", "Rated impedance", "lowest |Z|", "ohm"),
            Outcome.found(withScale(evidence.features().lowestModulus().modulusOhm())),
            Interval.atLeast(RATED_PART * ratedOhm),
            text(
                "Check the wiring and the coils: the lowest |Z| must be 80 %% of the rated %s ohm.",
                Checks.number(ratedOhm)),
            ""));
  }

  private Check tuning(Interval allowed) {
    return Checks.guarded(
        new Name("tuning", "Vent tuning", "tuning", "Hz"),
        evidence.features().tuningHz(),
        allowed,
        "Shorten the vent, or look for a volume larger than planned.",
        "Lengthen the vent, or look for a volume smaller than planned.");
  }

  private Check resonance(Interval allowed) {
    return Checks.guarded(
        new Name("resonance", "Resonance in the box", "resonance in the box", "Hz"),
        evidence.features().mainResonanceHz(),
        allowed,
        evidence.shared()
            ? "Swap the leads of one driver and sweep again; then look for holes and a volume too"
                + " large."
            : "Look for holes, then for a volume too large.",
        "Look for a volume too small or missing stuffing.");
  }

  private Check leak(Interval allowed) {
    Outcome<Estimate> dip =
        evidence
            .features()
            .dipBetweenPeaks()
            .map(d -> Outcome.found(d.modulusOhm()))
            .orElse(Outcome.none("|Z| has no dip between two peaks"));
    return Checks.guarded(
        new Name("leak", "Leak (dip over DC resistance)", "dip over the DC resistance", ""),
        overDc(dip),
        allowed,
        "Check the plan: this box is tighter than it allows for.",
        "Play a low tone and pass a hand along the seams and the driver gaskets: find the leak.");
  }

  private Check peakHeight(Interval allowed) {
    return Checks.guarded(
        new Name("peak-height", "Peak over DC resistance", "peak over the DC resistance", ""),
        overDc(smallestPeakOhm()),
        allowed,
        "Look for a leak with a low tone and a hand; push the cone and listen for rubbing.",
        "Look whether the stuffing is missing.");
  }

  /**
   * Read from the points and from the fit; the interval holds both, for a sharp peak between two
   * points is higher than either.
   */
  private Outcome<Estimate> smallestPeakOhm() {
    Optional<Estimate> read =
        evidence.features().extrema().peaks().stream()
            .map(Extremum::modulusOhm)
            .min(Comparator.comparingDouble(Estimate::value));
    if (read.isEmpty()) {
      return Outcome.none("|Z| has no peak");
    }
    double fitted =
        evidence.features().fittedPeaksOhm() instanceof Found<List<Double>> found
            ? found.value().stream().min(Comparator.naturalOrder()).orElse(read.get().value())
            : read.get().value();
    Interval seen = read.get().interval();
    return Outcome.found(
        new Estimate(
            read.get().value(),
            new Interval(
                Math.min(seen.low(), fitted * (1 - FIT_OF_PEAK)),
                Math.max(seen.high(), fitted * (1 + FIT_OF_PEAK)))));
  }

  private Outcome<Estimate> overDc(Outcome<Estimate> modulus) {
    Outcome<Estimate> dc = dcOhm();
    if (modulus instanceof Found<Estimate> found && dc instanceof Found<Estimate> ohm) {
      return Outcome.found(found.value().over(ohm.value()));
    }
    return modulus instanceof NoResult<Estimate> ? modulus : dc;
  }

  /** Each check for which the plan gives limits, and the DC resistance always. */
  List<Check> asked() {
    boolean vented = evidence.plan().kind() == Kind.VENTED;
    List<Check> checks = new ArrayList<>();
    checks.add(dcResistance());
    limits.ratedImpedanceOhm().ifPresent(ohm -> checks.add(ratedImpedance(ohm)));
    if (vented) {
      limits.tuningHz().ifPresent(allowed -> checks.add(tuning(allowed)));
      limits.dipRatio().ifPresent(allowed -> checks.add(leak(allowed)));
    } else {
      limits.resonanceHz().ifPresent(allowed -> checks.add(resonance(allowed)));
    }
    limits.peakRatio().ifPresent(allowed -> checks.add(peakHeight(allowed)));
    return checks;
  }
}
