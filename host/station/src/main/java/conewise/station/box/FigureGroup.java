package conewise.station.box;

import conewise.station.driver.DriverFigure;
import java.util.List;

/**
 * The figures of one thing.
 *
 * @param kind what kind of thing it is
 * @param names its name; those of several that only count together
 * @param title what it is called for people
 * @param figures its figures
 * @param readings other readings of its tuning, where it has one
 */
public record FigureGroup(
    Kind kind,
    List<String> names,
    String title,
    List<DriverFigure> figures,
    List<TuningReading> readings) {

  /** Kinds of things that have figures. */
  public enum Kind {
    DRIVER,
    SPACE,
    RADIATOR,
    TERMINALS
  }

  public FigureGroup {
    names = List.copyOf(names);
    figures = List.copyOf(figures);
    readings = List.copyOf(readings);
  }
}
