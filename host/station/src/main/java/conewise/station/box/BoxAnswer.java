package conewise.station.box;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.BoxMeasurement;
import conewise.analysis.parameter.FittedBox;
import conewise.analysis.plan.PlannedBox;
import conewise.station.card.Figures;
import java.util.List;
import java.util.Optional;

/**
 * What the sweeps of one box, fitted together, came to.
 *
 * @param plan what the box should be
 * @param sweeps what was fitted, the box as it came first
 * @param fitted the fit
 * @param groups the figures by what they belong to
 * @param openSets what the sweeps leave open
 * @param remarks what a reader must know of the figures, full sentences
 */
public record BoxAnswer(
    PlannedBox plan,
    List<BoxSweep> sweeps,
    FittedBox fitted,
    List<FigureGroup> groups,
    List<OpenSet> openSets,
    List<String> remarks) {
  public BoxAnswer {
    sweeps = List.copyOf(sweeps);
    groups = List.copyOf(groups);
    openSets = List.copyOf(openSets);
    remarks = List.copyOf(remarks);
  }

  /**
   * Fits all sweeps of a box together. Takes a second or a few.
   *
   * @param sweeps the box as it came, first, and any number in other states
   * @return the figures, or why there are none, a full sentence
   * @throws IllegalArgumentException where a state names a part that the plan does not have
   */
  public static Outcome<BoxAnswer> of(PlannedBox plan, List<BoxSweep> sweeps) {
    for (BoxSweep sweep : sweeps) {
      Optional<String> impossible = impossible(sweep);
      if (impossible.isPresent()) {
        return Outcome.none(impossible.get());
      }
    }
    BoxMeasurement measurement = BoxMeasurement.of(plan, sweeps.get(0).curve());
    for (BoxSweep sweep : sweeps.subList(1, sweeps.size())) {
      measurement = measurement.with(sweep.state(), sweep.curve());
    }
    Outcome<FittedBox> outcome = measurement.fit();
    if (outcome instanceof NoResult<FittedBox> none) {
      return Outcome.none(refused(plan, sweeps, none.because()));
    }
    FittedBox fitted = ((Found<FittedBox>) outcome).value();
    return Outcome.found(
        new BoxAnswer(
            plan,
            sweeps,
            fitted,
            BoxFigureGroups.of(fitted),
            OpenSet.of(fitted.fit().openSets(), fitted.advice()),
            FitRemarks.of(sweeps, fitted)));
  }

  /** What the impedance of a passive thing never is. */
  private static Optional<String> impossible(BoxSweep sweep) {
    return sweep.curve().points().stream()
        .filter(point -> !(point.resistanceOhm() > 0))
        .findFirst()
        .map(
            point ->
                sweep.file()
                    + ": the resistance at "
                    + Figures.plain(point.frequencyHz())
                    + " Hz is "
                    + Figures.plain(point.resistanceOhm())
                    + " ohm, and a box's is above 0; check which way round the current was"
                    + " measured.");
  }

  private static String refused(PlannedBox plan, List<BoxSweep> sweeps, String because) {
    return sweeps.get(0).file()
        + (sweeps.size() > 1 ? " and the other sweeps do" : " does")
        + " not fit the plan \""
        + plan.name()
        + "\": "
        + because
        + "; check that file and plan are of the same box, or ask \"conewise judge\" what is"
        + " wrong with it.";
  }
}
