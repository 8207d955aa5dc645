package conewise.analysis.judgement;

import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.Checks.Name;
import conewise.analysis.load.TerminalLoad;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.parameter.BoxFigures;
import conewise.analysis.parameter.BoxFigures.SpaceFigure;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

/** The values that a plan asks for: resistance, lowest modulus, tuning, resonance, losses. */
final class BoxChecks {
  private static final double COVERAGE_FACTOR = 1.96;
  private static final String CALIBRATE =
      "Calibrate the jig with open and shorted terminals and a known resistor, then measure again.";

  private final PlannedBox plan;
  private final ImpedanceCurve curve;
  private final Finding best;

  BoxChecks(PlannedBox plan, ImpedanceCurve curve, Finding best) {
    this.plan = plan;
    this.curve = curve;
    this.best = best;
  }

  List<Check> all() {
    Demands demands = plan.demands();
    List<Check> checks = new ArrayList<>();
    checks.add(dcResistance());
    demands.ratedImpedanceOhm().ifPresent(ohm -> checks.add(ratedImpedance(ohm)));
    BoxFigures figures = BoxFigures.of(best.fit(), best.candidate().model());
    demands.tuningHz().forEach((space, limits) -> checks.add(tuning(figures, space, limits)));
    demands
        .closedResonanceHz()
        .forEach((space, limits) -> checks.add(closedResonance(figures, space, limits)));
    demands.leastLossQ().forEach((space, least) -> checks.add(loss(figures, space, least)));
    return checks;
  }

  private Check dcResistance() {
    double planned = DirectResistance.ohm(plan.model());
    double tolerance = plan.demands().dcToleranceFraction();
    Interval limits =
        plan.demands()
            .dcResistanceOhm()
            .orElse(new Interval(planned * (1 - tolerance), planned * (1 + tolerance)));
    return calibrateFirst(
        Checks.guarded(
            new Name("dc-resistance", "DC resistance", "DC resistance", "ohm"),
            dcOhm().map(each -> each.scaledBy(curve.scaleUncertainty())),
            limits,
            "Check the wiring against the plan, coil by coil with a meter: too little resistance.",
            "Check the joints and each coil with a meter, links removed: too much resistance."));
  }

  /** At 0 Hz where the curve has that point and its uncertainty, else of the fit. */
  private Outcome<Estimate> dcOhm() {
    ImpedancePoint first = curve.points().get(0);
    if (first.frequencyHz() == 0 && first.standardUncertaintyOhm().isPresent()) {
      return Outcome.found(
          Estimate.within(
              first.resistanceOhm(), COVERAGE_FACTOR * first.standardUncertaintyOhm().get()));
    }
    return best.fit().estimate("the DC resistance", this::dcOhm);
  }

  private double dcOhm(Values values) {
    BoxModel model = best.candidate().model();
    return DirectResistance.ohm(
        model.circuit(),
        coil -> {
          Driver driver = model.driver(coil.driver());
          return values.of(new Quantity(coil.driver(), Kind.COIL_RESISTANCE))
              * driver.coils().get(coil.number() - 1).resistanceOhm()
              / driver.meanCoilOhm();
        },
        part -> values.of(new Quantity(part.name(), Kind.RESISTANCE)));
  }

  /** Where the scale makes most of an interval that crosses a limit, only calibrating helps. */
  private Check calibrateFirst(Check check) {
    boolean byScale =
        check.decision() == Decision.UNDECIDED
            && check.reading() instanceof Found<Check.Reading> found
            && 2 * COVERAGE_FACTOR * curve.scaleUncertainty() * found.value().value()
                > (found.value().interval().high() - found.value().interval().low()) / 2;
    return byScale ? check.withNextStep(CALIBRATE) : check;
  }

  private Check ratedImpedance(double ratedOhm) {
    Estimate lowest = CurveFeatures.of(curve).lowestModulus().modulusOhm();
    return calibrateFirst(
        Checks.guarded(
            new Name("rated-impedance", "Rated impedance", "lowest |Z|", "ohm"),
            Outcome.found(lowest.scaledBy(curve.scaleUncertainty())),
            Interval.atLeast(TerminalLoad.LEAST_PART_OF_RATED * ratedOhm),
            "Check the wiring and the coils: the lowest |Z| must be 80 % of the rated "
                + Checks.number(ratedOhm)
                + " ohm.",
            ""));
  }

  private static Outcome<Estimate> figure(
      BoxFigures figures, String space, Function<SpaceFigure, Outcome<Estimate>> which) {
    return figures.spaces().stream()
        .filter(each -> each.name().equals(space))
        .findFirst()
        .map(which)
        .orElseGet(() -> Outcome.none("the box has no space " + space));
  }

  private String of(String what, String space) {
    return plan.spaces().size() == 1 ? what : what + " of " + space;
  }

  private Check tuning(BoxFigures figures, String space, Interval limits) {
    return Checks.guarded(
        new Name(id("tuning", space), of("Vent tuning", space), of("tuning", space), "Hz"),
        figure(figures, space, SpaceFigure::tuningHz),
        limits,
        "Shorten the vent, or look for stuffing or a volume beyond the plan.",
        "Lengthen the vent, or look for a volume smaller than planned.");
  }

  private Check closedResonance(BoxFigures figures, String space, Interval limits) {
    return Checks.guarded(
        new Name(
            id("resonance", space),
            of("Resonance in the box", space),
            of("resonance", space),
            "Hz"),
        figure(figures, space, SpaceFigure::closedResonanceHz),
        limits,
        "Look for holes, then for stuffing or a volume beyond the plan.",
        "Look for a volume too small or missing stuffing.");
  }

  private Check loss(BoxFigures figures, String space, double least) {
    return Checks.guarded(
        new Name(id("loss", space), of("Leaks and losses", space), of("loss Q", space), ""),
        figure(figures, space, SpaceFigure::totalLossQ),
        Interval.atLeast(least),
        "Play a low tone and pass a hand along the seams and the driver gaskets: find the leak;"
            + " else look for stuffing beyond the plan.",
        "");
  }

  /** One word where the box has one space. */
  private String id(String what, String space) {
    return plan.spaces().size() == 1 ? what : what + ":" + space;
  }
}
