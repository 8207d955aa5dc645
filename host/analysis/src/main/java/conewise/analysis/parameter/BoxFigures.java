package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * What a fitted box comes to, in the trade's figures.
 *
 * @param drivers the drivers; like ones that the terminals cannot tell apart stand together
 * @param spaces the spaces that a driver works on
 */
public record BoxFigures(List<DriverFigure> drivers, List<SpaceFigure> spaces) {

  /**
   * A driver, or several like ones by their mean (geometric).
   *
   * @param names which
   * @param dcResistanceOhm Re of one, all coils in series
   * @param resonanceHz fs
   * @param mechanicalQ Qms of all losses
   * @param electricalQ Qes
   * @param totalQ Qts
   * @param equivalentVolumeM3 Vas
   */
  public record DriverFigure(
      List<String> names,
      Outcome<Estimate> dcResistanceOhm,
      Outcome<Estimate> resonanceHz,
      Outcome<Estimate> mechanicalQ,
      Outcome<Estimate> electricalQ,
      Outcome<Estimate> totalQ,
      Outcome<Estimate> equivalentVolumeM3) {
    public DriverFigure {
      names = List.copyOf(names);
    }
  }

  /**
   * A space.
   *
   * @param name which
   * @param complianceRatio Vas of all drivers on it, over its volume
   * @param tuningHz the fitted tuning of its vent, or of all its vents together
   * @param totalLossQ losses of box, vent and drivers together at the tuning, as the Q of one leak
   *     that would raise the dip as much: they do not separate in one open sweep
   * @param closedResonanceHz fc, where it has no vent
   * @param closedTotalQ Qtc there
   */
  public record SpaceFigure(
      String name,
      Outcome<Estimate> complianceRatio,
      Outcome<Estimate> tuningHz,
      Outcome<Estimate> totalLossQ,
      Outcome<Estimate> closedResonanceHz,
      Outcome<Estimate> closedTotalQ) {}

  public BoxFigures {
    drivers = List.copyOf(drivers);
    spaces = List.copyOf(spaces);
  }

  /**
   * Reads a fit.
   *
   * @param box the model of the first of its sweeps
   */
  public static BoxFigures of(BoxFit fit, BoxModel box) {
    List<DriverFigure> drivers = new ArrayList<>();
    for (List<String> names : likeDrivers(box)) {
      drivers.add(driver(fit, box, names));
    }
    List<SpaceFigure> spaces = new ArrayList<>();
    for (Space space : box.spaces()) {
      if (!driversOn(box, space).isEmpty()) {
        spaces.add(new SpaceReading(fit, box, space).figure());
      }
    }
    return new BoxFigures(drivers, spaces);
  }

  /**
   * Drivers of like statement and place; exchanging two of them leaves the terminals as they are.
   */
  private static List<List<String>> likeDrivers(BoxModel box) {
    Map<List<Object>, List<String>> groups = new LinkedHashMap<>();
    for (Mounted mounted : box.drivers()) {
      List<Object> alike =
          List.of(
              mounted.driver(),
              mounted.behind(),
              mounted.before(),
              reversed(box.circuit(), mounted.name()));
      groups.computeIfAbsent(alike, key -> new ArrayList<>()).add(mounted.name());
    }
    return List.copyOf(groups.values());
  }

  /** For each coil of a driver in the circuit, whether it is reversed. */
  private static List<Boolean> reversed(Circuit circuit, String driver) {
    if (circuit instanceof Circuit.Coil coil) {
      return coil.driver().equals(driver) ? List.of(coil.reversed()) : List.of();
    }
    List<Circuit> parts =
        circuit instanceof Circuit.Series series
            ? series.parts()
            : circuit instanceof Circuit.Parallel parallel ? parallel.parts() : List.of();
    return parts.stream().flatMap(part -> reversed(part, driver).stream()).toList();
  }

  private static DriverFigure driver(BoxFit fit, BoxModel box, List<String> names) {
    Driver driver = box.driver(names.get(0));
    List<DriverFunctions> each =
        names.stream()
            .map(name -> new DriverFunctions(name, driver, box.air().bulkModulusPa(), 1))
            .toList();
    String of = " of " + String.join(" and ", names);
    return new DriverFigure(
        names,
        fit.estimate("Re" + of, v -> mean(each, f -> f.resistance(v))),
        fit.estimate("fs" + of, v -> mean(each, f -> f.resonance(v))),
        fit.estimate("Qms" + of, v -> mean(each, f -> f.mechanicalQ(v))),
        fit.estimate("Qes" + of, v -> mean(each, f -> f.electricalQ(v))),
        fit.estimate("Qts" + of, v -> mean(each, f -> f.totalQ(v))),
        fit.estimate("Vas" + of, v -> mean(each, f -> f.equivalentVolume(v))));
  }

  private static double mean(List<DriverFunctions> each, ToDoubleFunction<DriverFunctions> figure) {
    return Math.exp(
        each.stream().mapToDouble(f -> Math.log(figure.applyAsDouble(f))).average().orElseThrow());
  }

  private static List<Mounted> driversOn(BoxModel box, Space space) {
    return box.drivers().stream()
        .filter(m -> m.behind().equals(space.name()) || m.before().equals(space.name()))
        .toList();
  }

  /** The figures of one space as functions of the fitted quantities. */
  private static final class SpaceReading {
    private final BoxFit fit;
    private final Space space;
    private final List<Mounted> drivers;
    private final List<Vent> vents;
    private final List<Leak> leaks;
    private final List<DriverFunctions> functions;

    SpaceReading(BoxFit fit, BoxModel box, Space space) {
      this.fit = fit;
      this.space = space;
      drivers = driversOn(box, space);
      vents =
          box.openings().stream()
              .filter(o -> o instanceof Vent && o.behind().equals(space.name()))
              .map(Vent.class::cast)
              .toList();
      leaks =
          box.openings().stream()
              .filter(o -> o instanceof Leak && o.behind().equals(space.name()))
              .map(Leak.class::cast)
              .toList();
      functions =
          drivers.stream()
              .map(m -> new DriverFunctions(m.name(), m.driver(), box.air().bulkModulusPa(), 1))
              .toList();
    }

    SpaceFigure figure() {
      String of = " of " + space.name();
      boolean vented = !vents.isEmpty();
      Outcome<Estimate> notVented = Outcome.none(space.name() + " has no vent");
      Outcome<Estimate> notClosed = Outcome.none(space.name() + " is not closed: it has a vent");
      return new SpaceFigure(
          space.name(),
          fit.estimate("the compliance ratio" + of, this::complianceRatio),
          vented ? fit.estimate("the tuning" + of, this::tuning) : notVented,
          vented ? fit.estimate("the total loss" + of, this::totalLossQ) : notVented,
          vented ? notClosed : fit.estimate("fc" + of, this::closedResonance),
          vented ? notClosed : fit.estimate("Qtc" + of, this::closedTotalQ));
    }

    private double complianceRatio(Values v) {
      double vas = functions.stream().mapToDouble(f -> f.equivalentVolume(v)).sum();
      return vas / v.of(new Quantity(space.name(), Kind.VOLUME));
    }

    /** Masses of vents lie side by side, so the squares of their tunings add up. */
    private double tuning(Values v) {
      return Math.sqrt(
          vents.stream()
              .mapToDouble(vent -> Math.pow(v.of(new Quantity(vent.name(), Kind.TUNING)), 2))
              .sum());
    }

    private double mean(ToDoubleFunction<DriverFunctions> figure) {
      return BoxFigures.mean(functions, figure);
    }

    /** Losses of the space itself at a frequency, over its stored energy. */
    private double ownLoss(Values v, double hz) {
      double loss = 0;
      for (Leak leak : leaks) {
        loss += Space.LOSS_REFERENCE_HZ / hz / v.of(new Quantity(leak.name(), Kind.LEAK_Q));
      }
      if (space.absorptionQ().isPresent()) {
        loss += hz / Space.LOSS_REFERENCE_HZ / v.of(new Quantity(space.name(), Kind.ABSORPTION_Q));
      }
      return loss;
    }

    /**
     * At the tuning the cones see the box as a resistance, which the dip shows: with the box's
     * losses 1/Qb = 1/Ql + 1/Qa + 1/Qp it is Qb (alpha / h) fs-wise, beside the driver's own 1/Qms
     * (Small, J. Audio Eng. Soc. 21, 1973, eq. for rM). Both together as one leak: Q = Qb + (h /
     * alpha) / Qms.
     */
    private double totalLossQ(Values v) {
      double tuning = tuning(v);
      double loss = ownLoss(v, tuning);
      for (Vent vent : vents) {
        double share = Math.pow(v.of(new Quantity(vent.name(), Kind.TUNING)) / tuning, 2);
        loss += share / v.of(new Quantity(vent.name(), Kind.VENT_Q));
      }
      double ratio = tuning / mean(f -> f.resonance(v)) / complianceRatio(v);
      return 1 / loss + ratio / mean(f -> f.mechanicalQ(v));
    }

    /** fc = fs sqrt(1 + alpha) (Small, J. Audio Eng. Soc. 20, 1972). */
    private double closedResonance(Values v) {
      return mean(f -> f.resonance(v)) * Math.sqrt(1 + complianceRatio(v));
    }

    /** 1/Qtc = 1/(Qts sqrt(1 + alpha)) + alpha/(1 + alpha) of the air's loss, small losses. */
    private double closedTotalQ(Values v) {
      double alpha = complianceRatio(v);
      double driver = 1 / (mean(f -> f.totalQ(v)) * Math.sqrt(1 + alpha));
      return 1 / (driver + alpha / (1 + alpha) * ownLoss(v, closedResonance(v)));
    }
  }
}
