package conewise.analysis.parameter;

import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.fit.BoxFit;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Opening.Vent;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A box that was fitted to its sweeps.
 *
 * @param fit the fit; the first of its sweeps is of the box as it came
 * @param sweeps the sweeps as they were measured, in the fit's order
 * @param figures what it comes to
 * @param tuning by the name of a space with vents of its own: the several readings of its tuning
 */
public record FittedBox(
    BoxFit fit, List<SweptState> sweeps, BoxFigures figures, Map<String, TuningReadings> tuning) {
  public FittedBox {
    sweeps = List.copyOf(sweeps);
    tuning = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(tuning));
  }

  static FittedBox of(BoxFit fit, List<SweptState> sweeps) {
    BoxModel box = fit.sweeps().get(0).model();
    BoxFigures figures = BoxFigures.of(fit, box);
    Map<String, TuningReadings> tuning = new LinkedHashMap<>();
    List<Vent> vents =
        box.openings().stream().filter(Vent.class::isInstance).map(Vent.class::cast).toList();
    for (BoxFigures.SpaceFigure space : figures.spaces()) {
      List<Vent> own = vents.stream().filter(v -> v.behind().equals(space.name())).toList();
      // A dip belongs to one space where that alone is vented.
      if (!own.isEmpty() && own.size() == vents.size()) {
        tuning.put(
            space.name(),
            TuningReadings.of(space.tuningHz(), sweeps.get(0).curve(), closed(sweeps, own)));
      }
    }
    return new FittedBox(fit, sweeps, figures, tuning);
  }

  /** The sweep with the only vent closed. */
  private static Optional<ImpedanceCurve> closed(List<SweptState> sweeps, List<Vent> vents) {
    return vents.size() != 1
        ? Optional.empty()
        : sweeps.stream()
            .filter(each -> each.state() instanceof State.VentClosed)
            .map(SweptState::curve)
            .findFirst();
  }

  /** The box as it came, with the values that its plan states. */
  public BoxModel model() {
    return fit.sweeps().get(0).model();
  }

  /**
   * What one more sweep would tell that is open now, the best first; states that were swept already
   * are left out. Takes a moment.
   */
  public List<SecondSweeps.Advice> advice() {
    return SecondSweeps.of(fit, model()).stream()
        .filter(
            advice -> fit.sweeps().stream().noneMatch(sweep -> sweep.model().equals(advice.box())))
        .toList();
  }
}
