package conewise.analysis.parameter;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.Sweep;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The sweeps of one box that is built by a plan, fitted together. Immutable; each {@code with}
 * answers a new one, and each fit is made anew.
 */
public final class BoxMeasurement {
  private final PlannedBox plan;
  private final List<SweptState> sweeps;

  private BoxMeasurement(PlannedBox plan, List<SweptState> sweeps) {
    this.plan = plan;
    this.sweeps = List.copyOf(sweeps);
  }

  /**
   * A box as it came to the bench.
   *
   * @param plan what it should be
   * @param curve its impedance; a point at 0 Hz is the DC resistance
   */
  public static BoxMeasurement of(PlannedBox plan, ImpedanceCurve curve) {
    return new BoxMeasurement(plan, List.of(SweptState.asBuilt(curve)));
  }

  /**
   * With a sweep of the same box in another state.
   *
   * @throws IllegalArgumentException where the plan has no driver or vent that the state names, or
   *     no current could pass in it
   */
  public BoxMeasurement with(State state, ImpedanceCurve curve) {
    requirePart(state);
    if (!modelIn(state).conducts()) {
      throw new IllegalArgumentException(
          "no current can pass through the box " + state.words() + "; sweep another state");
    }
    List<SweptState> more = new ArrayList<>(sweeps);
    more.add(new SweptState(state, curve));
    return new BoxMeasurement(plan, more);
  }

  private void requirePart(State state) {
    if (state instanceof State.VentClosed closed) {
      requireOneOf(
          "vent", closed.vent(), plan.vents().stream().map(PlannedBox.PlannedVent::name).toList());
    } else if (state instanceof State.LeadsSwapped swapped) {
      requireDriver(swapped.driver());
    } else if (state instanceof State.Unplugged unplugged) {
      requireDriver(unplugged.driver());
    }
  }

  private void requireDriver(String name) {
    requireOneOf(
        "driver", name, plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toList());
  }

  private static void requireOneOf(String what, String name, List<String> names) {
    if (!names.contains(name)) {
      throw new IllegalArgumentException(
          "the plan has no "
              + what
              + " named "
              + name
              + "; it has "
              + (names.isEmpty() ? "none" : String.join(", ", names)));
    }
  }

  private BoxModel modelIn(State state) {
    return state.of(new Candidate(plan.model(), List.of())).model();
  }

  /** The fit with all that is read off it, or why the box does not fit. Takes about a second. */
  public Outcome<FittedBox> fit() {
    double resonanceHz =
        plan.model().drivers().stream()
            .mapToDouble(each -> each.driver().resonanceHz())
            .max()
            .orElseThrow();
    List<Sweep> fitted = new ArrayList<>();
    for (SweptState sweep : sweeps) {
      Outcome<ImpedanceCurve> usable =
          UsablePoints.of(sweep.curve(), UsablePoints.highestHz(resonanceHz));
      if (usable instanceof NoResult<ImpedanceCurve> none) {
        return Outcome.none(none.because());
      }
      fitted.add(new Sweep(modelIn(sweep.state()), ((Found<ImpedanceCurve>) usable).value()));
    }
    return BoxFit.of(fitted, plan.unknowns()).map(fit -> FittedBox.of(fit, sweeps));
  }

  /** What the box comes to, or why it does not fit. */
  public Outcome<BoxFigures> figures() {
    return fit().map(FittedBox::figures);
  }

  /**
   * The fitted tuning of a space in hertz, or why it is not told.
   *
   * @throws IllegalArgumentException where no driver works on a space of that name
   */
  public Outcome<Estimate> tuningHz(String space) {
    requireOneOf(
        "space", space, plan.spaces().stream().map(PlannedBox.PlannedSpace::name).toList());
    Outcome<FittedBox> fit = fit();
    if (fit instanceof NoResult<FittedBox> none) {
      return Outcome.none(none.because());
    }
    Optional<BoxFigures.SpaceFigure> figure =
        ((Found<FittedBox>) fit)
            .value().figures().spaces().stream()
                .filter(each -> each.name().equals(space))
                .findFirst();
    return figure
        .map(BoxFigures.SpaceFigure::tuningHz)
        .orElseGet(() -> Outcome.none("no driver works on the space " + space));
  }
}
