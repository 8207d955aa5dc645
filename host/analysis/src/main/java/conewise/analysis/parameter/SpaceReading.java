package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.PassiveRadiator;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.BoxFigures.SpaceFigure;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** The figures of one space as functions of the fitted quantities. */
final class SpaceReading {
  /** Each brings fc a tenth nearer or more, from within a few per cent. */
  private static final int STIFFENING_ROUNDS = 8;

  private final BoxFit fit;
  private final Space space;
  private final List<Mounted> drivers;
  private final List<Vent> vents;
  private final List<Leak> leaks;
  private final List<PassiveRadiator> radiators;

  /** Vents of other spaces that lead into this one. */
  private final List<String> inlets;

  private final List<DriverFunctions> functions;

  SpaceReading(BoxFit fit, BoxModel box, Space space) {
    this.fit = fit;
    this.space = space;
    drivers = BoxFigures.driversOn(box, space);
    radiators =
        box.openings().stream()
            .filter(o -> o instanceof PassiveRadiator && touches(o, space))
            .map(PassiveRadiator.class::cast)
            .toList();
    inlets =
        box.openings().stream()
            .filter(o -> o instanceof Vent && o.before().equals(space.name()))
            .map(Opening::name)
            .toList();
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

  private static boolean touches(Opening opening, Space space) {
    return opening.behind().equals(space.name()) || opening.before().equals(space.name());
  }

  SpaceFigure figure() {
    String name = space.name();
    String of = " of " + name;
    Outcome<Estimate> ratio = fit.estimate("the compliance ratio" + of, this::complianceRatio);
    List<String> ways = new ArrayList<>();
    vents.forEach(vent -> ways.add(vent.name()));
    ways.addAll(inlets);
    radiators.forEach(radiator -> ways.add(radiator.name()));
    Outcome<Estimate> none = Outcome.none(name + " is closed: it has neither vent nor radiator");
    if (ways.isEmpty()) {
      return new SpaceFigure(
          name,
          ratio,
          none,
          none,
          fit.estimate("fc" + of, this::closedResonance),
          fit.estimate("Qtc" + of, this::closedTotalQ));
    }
    Outcome<Estimate> open =
        Outcome.none(name + " is not closed: " + String.join(" and ", ways) + " opens it");
    boolean vented = !vents.isEmpty() && radiators.isEmpty();
    return new SpaceFigure(
        name,
        ratio,
        vented ? fit.estimate("the tuning" + of, this::tuning) : radiatorTuning(),
        vented
            ? fit.estimate("the total loss" + of, this::totalLossQ)
            : Outcome.none("the total loss is given for spaces with vents of their own"),
        open,
        open);
  }

  /** fB = fp sqrt(1 + Vap/V) (R. H. Small, J. Audio Eng. Soc. 22, 1974, from memory). */
  private Outcome<Estimate> radiatorTuning() {
    if (!vents.isEmpty() || radiators.size() != 1) {
      return Outcome.none(
          space.name()
              + " has "
              + vents.size()
              + " vents and "
              + radiators.size()
              + " passive radiators of its own; one tuning is told of vents alone or of one"
              + " radiator");
    }
    String name = radiators.get(0).name();
    return fit.estimate(
        "the tuning of " + space.name(),
        v ->
            v.of(new Quantity(name, Kind.RESONANCE))
                * Math.sqrt(
                    1
                        + v.of(new Quantity(name, Kind.EQUIVALENT_VOLUME))
                            / v.of(new Quantity(space.name(), Kind.VOLUME))));
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
   * At the tuning the cones see the box as a resistance, which the dip shows: with the box's losses
   * 1/Qb = 1/Ql + 1/Qa + 1/Qp it is Qb (alpha / h) fs-wise, beside the driver's own 1/Qms (Small,
   * J. Audio Eng. Soc. 21, 1973, eq. for rM). Both together as one leak: Q = Qb + (h / alpha) /
   * Qms.
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

  /**
   * fc = fs sqrt(1 + alpha) (Small, J. Audio Eng. Soc. 20, 1972), with the 1 of the suspension as
   * stiff as it is at fc: where the reactance of cone and air passes zero.
   */
  private double closedResonance(Values v) {
    double fs = mean(f -> f.resonance(v));
    double alpha = complianceRatio(v);
    double hz = fs * Math.sqrt(1 + alpha);
    for (int i = 0; i < STIFFENING_ROUNDS; i++) {
      double at = hz;
      hz = fs * Math.sqrt(mean(f -> f.stiffnessAt(v, at)) + alpha);
    }
    return hz;
  }

  /** 1/Qtc is the drivers' losses at fc and the air's, which store alpha fs²/fc² of the energy. */
  private double closedTotalQ(Values v) {
    double hz = closedResonance(v);
    double ofAir = complianceRatio(v) * Math.pow(mean(f -> f.resonance(v)) / hz, 2);
    return 1 / (mean(f -> f.lossAt(v, hz)) + ofAir * ownLoss(v, hz));
  }
}
