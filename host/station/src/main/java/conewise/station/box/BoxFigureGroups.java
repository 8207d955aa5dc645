package conewise.station.box;

import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.BoxFigures;
import conewise.analysis.parameter.FittedBox;
import conewise.analysis.parameter.TuningReadings;
import conewise.station.driver.DriverFigure;
import conewise.station.driver.FigureText;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Sorts a fitted box's figures by what they belong to. */
final class BoxFigureGroups {
  private static final double LITRES = 1000;

  private final FittedBox fitted;
  private final BoxModel box;

  private BoxFigureGroups(FittedBox fitted) {
    this.fitted = fitted;
    box = fitted.model();
  }

  static List<FigureGroup> of(FittedBox fitted) {
    BoxFigureGroups groups = new BoxFigureGroups(fitted);
    List<FigureGroup> list = new ArrayList<>();
    fitted.figures().spaces().forEach(space -> list.add(groups.space(space)));
    fitted.figures().radiators().forEach(radiator -> list.add(radiator(radiator)));
    fitted.figures().drivers().forEach(driver -> list.add(driver(driver)));
    list.add(groups.terminals());
    return list;
  }

  private FigureGroup space(BoxFigures.SpaceFigure space) {
    List<DriverFigure> figures = new ArrayList<>();
    if (isOpened(space.name())) {
      figures.add(DriverFigure.of("fB", "tuning, fitted", "Hz", 1, space.tuningHz()));
      if (fitted.tuning().containsKey(space.name())
          || space.totalLossQ() instanceof Outcome.Found<Estimate>) {
        figures.add(DriverFigure.of("Qloss", "Q of all losses there", "", 1, space.totalLossQ()));
      }
    } else {
      figures.add(DriverFigure.of("fc", "resonance, closed", "Hz", 1, space.closedResonanceHz()));
      figures.add(DriverFigure.of("Qtc", "total Q, closed", "", 1, space.closedTotalQ()));
    }
    figures.add(DriverFigure.of("alpha", "compliance ratio Vas/V", "", 1, space.complianceRatio()));
    List<TuningReading> readings =
        Optional.ofNullable(fitted.tuning().get(space.name()))
            .map(BoxFigureGroups::readings)
            .orElse(List.of());
    return new FigureGroup(
        FigureGroup.Kind.SPACE, List.of(space.name()), "Space " + space.name(), figures, readings);
  }

  /** True where a vent or a passive radiator opens a space. */
  private boolean isOpened(String space) {
    return box.openings().stream()
        .filter(o -> o instanceof Opening.Vent || o instanceof Opening.PassiveRadiator)
        .anyMatch(o -> o.behind().equals(space) || o.before().equals(space));
  }

  private static List<TuningReading> readings(TuningReadings readings) {
    return List.of(
        new TuningReading(
            "dip of |Z|", readings.dipHz().map(Estimate::value), TuningReadings.DIP_BIAS),
        new TuningReading(
            "zero of the phase", readings.phaseZeroHz(), TuningReadings.PHASE_ZERO_BIAS),
        new TuningReading(
            "three frequencies",
            readings.threeFrequenciesHz(),
            TuningReadings.THREE_FREQUENCIES_BIAS));
  }

  private static FigureGroup radiator(BoxFigures.RadiatorFigure radiator) {
    return new FigureGroup(
        FigureGroup.Kind.RADIATOR,
        List.of(radiator.name()),
        "Passive radiator " + radiator.name(),
        List.of(
            DriverFigure.of("fp", "resonance in free air", "Hz", 1, radiator.resonanceHz()),
            DriverFigure.of("Qmp", "mechanical Q", "", 1, radiator.mechanicalQ()),
            DriverFigure.of(
                "Vap", "equivalent volume", "litres", LITRES, radiator.equivalentVolumeM3())),
        List.of());
  }

  private static FigureGroup driver(BoxFigures.DriverFigure driver) {
    boolean one = driver.names().size() == 1;
    return new FigureGroup(
        FigureGroup.Kind.DRIVER,
        driver.names(),
        one
            ? "Driver " + driver.names().get(0)
            : "Drivers "
                + FigureText.listed(driver.names())
                + ", their mean (the terminals do not tell which is which)",
        List.of(
            DriverFigure.of("fs", "resonance in free air", "Hz", 1, driver.resonanceHz()),
            DriverFigure.of("Qms", "mechanical Q", "", 1, driver.mechanicalQ()),
            DriverFigure.of("Qes", "electrical Q", "", 1, driver.electricalQ()),
            DriverFigure.of("Qts", "total Q", "", 1, driver.totalQ()),
            DriverFigure.of(
                "Re", "resistance, coils in series", "ohm", 1, driver.dcResistanceOhm()),
            DriverFigure.of(
                "Vas", "equivalent volume", "litres", LITRES, driver.equivalentVolumeM3())),
        List.of());
  }

  private FigureGroup terminals() {
    List<DriverFigure> figures = new ArrayList<>();
    figures.add(
        DriverFigure.of(
            "Rdc", "DC resistance of the box", "ohm", 1, fitted.figures().dcResistanceOhm()));
    for (String name : resistances(box.circuit())) {
      double ohm = fitted.fit().value(new Quantity(name, Kind.RESISTANCE));
      Outcome<Estimate> given = Outcome.found(Estimate.within(ohm, 0));
      figures.add(DriverFigure.of("R", name, "ohm", 1, given));
    }
    return new FigureGroup(
        FigureGroup.Kind.TERMINALS, List.of("terminals"), "Terminals", figures, List.of());
  }

  private static List<String> resistances(Circuit circuit) {
    if (circuit instanceof Circuit.Resistance part) {
      return List.of(part.name());
    }
    List<Circuit> parts =
        circuit instanceof Circuit.Series series
            ? series.parts()
            : circuit instanceof Circuit.Parallel parallel ? parallel.parts() : List.of();
    return parts.stream().flatMap(part -> resistances(part).stream()).distinct().toList();
  }
}
