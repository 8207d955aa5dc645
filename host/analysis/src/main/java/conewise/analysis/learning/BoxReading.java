package conewise.analysis.learning;

import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.learning.FigureKind.What;
import conewise.analysis.learning.LearnedFigure.Reading;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.parameter.BoxFigures.SpaceFigure;
import conewise.analysis.parameter.FittedBox;
import conewise.analysis.plan.PlannedBox;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The figures of one fitted box that can be learned from, as far as its curve tells them. */
final class BoxReading {
  private static final double COVERAGE_FACTOR = 1.96;

  private final PlannedBox plan;
  private final FittedBox fitted;
  private final ImpedanceCurve curve;
  private final Map<FigureKind, Reading> readings = new LinkedHashMap<>();
  private final Set<FigureKind> untold = new LinkedHashSet<>();

  private BoxReading(PlannedBox plan, FittedBox fitted) {
    this.plan = plan;
    this.fitted = fitted;
    curve = fitted.sweeps().get(0).curve();
  }

  static BoxReading of(PlannedBox plan, FittedBox fitted) {
    BoxReading reading = new BoxReading(plan, fitted);
    reading.read();
    return reading;
  }

  /** Those that the curve tells. */
  Map<FigureKind, Reading> told() {
    return Collections.unmodifiableMap(readings);
  }

  /** Parts' figures that it does not tell. */
  Set<FigureKind> untold() {
    return Collections.unmodifiableSet(untold);
  }

  private void read() {
    whole();
    fitted.figures().spaces().forEach(this::space);
    plan.vents().forEach(vent -> part(vent.name(), Kind.TUNING, What.VENT_TUNING));
    plan.kinds().forEach(kind -> kind(kind.name()));
    plan.radiators()
        .forEach(
            radiator -> {
              part(radiator.name(), Kind.RESONANCE, What.RADIATOR_RESONANCE);
              part(radiator.name(), Kind.MECHANICAL_Q, What.RADIATOR_Q);
              part(radiator.name(), Kind.EQUIVALENT_VOLUME, What.RADIATOR_VOLUME);
            });
    // The volume of an only space cannot be told from the drivers' Vas, and is not moved.
    if (plan.spaces().size() > 1) {
      plan.spaces().forEach(space -> part(space.name(), Kind.VOLUME, What.VOLUME));
    }
  }

  private void whole() {
    add("", What.DC_RESISTANCE, dcOhm().map(each -> each.scaledBy(curve.scaleUncertainty())));
    Estimate lowest = CurveFeatures.of(curve).lowestModulus().modulusOhm();
    add("", What.LOWEST_MODULUS, Outcome.found(lowest.scaledBy(curve.scaleUncertainty())));
  }

  /** As a judge reads it: at 0 Hz where the curve has that point, else of the fit. */
  private Outcome<Estimate> dcOhm() {
    ImpedancePoint first = curve.points().get(0);
    return first.frequencyHz() == 0 && first.standardUncertaintyOhm().isPresent()
        ? Outcome.found(
            Estimate.within(
                first.resistanceOhm(), COVERAGE_FACTOR * first.standardUncertaintyOhm().get()))
        : fitted.figures().dcResistanceOhm();
  }

  private void space(SpaceFigure space) {
    add(space.name(), What.SPACE_TUNING, space.tuningHz());
    add(space.name(), What.CLOSED_RESONANCE, space.closedResonanceHz());
    add(space.name(), What.LOSS_Q, space.totalLossQ());
  }

  /** Drivers of one kind by their geometric mean. */
  private void kind(String kind) {
    List<String> names =
        plan.drivers().stream()
            .filter(each -> each.kind().equals(kind))
            .map(PlannedBox.PlacedDriver::name)
            .toList();
    if (names.isEmpty()) {
      return;
    }
    mean(kind, names, Kind.RESONANCE, What.RESONANCE);
    mean(kind, names, Kind.MECHANICAL_Q, What.MECHANICAL_Q);
    mean(kind, names, Kind.ELECTRICAL_Q, What.ELECTRICAL_Q);
    mean(kind, names, Kind.COIL_RESISTANCE, What.COIL_RESISTANCE);
    if (!plan.spaces().isEmpty()) {
      mean(kind, names, Kind.EQUIVALENT_VOLUME, What.EQUIVALENT_VOLUME);
    }
  }

  private void part(String name, Kind kind, What what) {
    mean(name, List.of(name), kind, what);
  }

  private void mean(String part, List<String> names, Kind kind, What what) {
    BoxFit fit = fitted.fit();
    add(
        part,
        what,
        fit.estimate(
            new FigureKind(part, what).words(),
            values ->
                Math.exp(
                    names.stream()
                        .mapToDouble(name -> Math.log(values.of(new Quantity(name, kind))))
                        .average()
                        .orElseThrow())));
    FigureKind figure = new FigureKind(part, what);
    if (!readings.containsKey(figure)) {
      untold.add(figure);
    }
  }

  private void add(String part, What what, Outcome<Estimate> outcome) {
    if (outcome instanceof Found<Estimate> found && found.value().value() > 0) {
      Estimate estimate = found.value();
      readings.put(
          new FigureKind(part, what),
          new Reading(estimate.value(), estimate.relativeWidth() / COVERAGE_FACTOR));
    }
  }
}
