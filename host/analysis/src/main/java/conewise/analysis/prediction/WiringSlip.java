package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.model.BoxModel;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.PlannedBox;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * What an ohmmeter at the terminals reads of a box that was wired wrong.
 *
 * @param fault the slip
 * @param ohm the DC resistance with every coil as planned; infinite where no current passes
 * @param range where it may lie by the plan's tolerance
 * @param meter whether that tells it from a box wired right
 */
public record WiringSlip(Fault fault, double ohm, Interval range, Meter meter) {

  /** Whether a meter shows a slip. */
  public enum Meter {
    /** The reading lies outside what the plan allows, whatever the coils are within it. */
    SHOWS("shows"),
    /** It may lie inside. */
    MAY_SHOW("may show"),
    /** It is a right box's. */
    CANNOT_SHOW("cannot show");

    private final String words;

    Meter(String words) {
      this.words = words;
    }

    /** For people: "may show". */
    public String words() {
      return words;
    }
  }

  /** The kinds of fault that are slips of the wiring. */
  static final Set<FaultKind> KINDS =
      EnumSet.of(
          FaultKind.BOX_REVERSED,
          FaultKind.DRIVER_REVERSED,
          FaultKind.COIL_REVERSED,
          FaultKind.COIL_OPEN,
          FaultKind.COIL_SHORTED,
          FaultKind.DRIVER_DISCONNECTED,
          FaultKind.WIRED_OTHERWISE);

  /** Readings this near one another are one: a meter has no more digits. */
  private static final double SAME = 1e-6;

  /** Every slip of a planned box, in the order in which a diagnosis lists them. */
  public static List<WiringSlip> of(PlannedBox plan) {
    Candidate planned = new Candidate(plan.model(), plan.unknowns());
    return Diagnosis.usualFaults(plan, Rates.USUAL).stream()
        .filter(fault -> KINDS.contains(fault.kind()))
        .map(fault -> of(plan, fault, fault.change().apply(planned).model()))
        .toList();
  }

  /** The DC resistance that a plan allows; an end may be open. */
  static Interval allowedOhm(PlannedBox plan) {
    double planned = DirectResistance.ohm(plan.model());
    double tolerance = plan.demands().dcToleranceFraction();
    return plan.demands()
        .dcResistanceOhm()
        .orElse(new Interval(planned * (1 - tolerance), planned * (1 + tolerance)));
  }

  /** A reading is as far off as the plan allows a right one to be, by its tolerance where open. */
  private static WiringSlip of(PlannedBox plan, Fault fault, BoxModel slipped) {
    double rightOhm = DirectResistance.ohm(plan.model());
    Interval allowed = allowedOhm(plan);
    double tolerance = plan.demands().dcToleranceFraction();
    double ohm = DirectResistance.ohm(slipped);
    if (Math.abs(ohm - rightOhm) <= SAME * rightOhm) {
      return new WiringSlip(fault, ohm, allowed, Meter.CANNOT_SHOW);
    }
    double low = Double.isInfinite(allowed.low()) ? 1 - tolerance : allowed.low() / rightOhm;
    double high = Double.isInfinite(allowed.high()) ? 1 + tolerance : allowed.high() / rightOhm;
    Interval range = new Interval(ohm * Math.min(1, low), ohm * Math.max(1, high));
    return new WiringSlip(
        fault, ohm, range, range.isApartFrom(allowed) ? Meter.SHOWS : Meter.MAY_SHOW);
  }
}
