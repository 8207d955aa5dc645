package conewise.analysis.learning;

import conewise.analysis.learning.FigureKind.What;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Puts learned figures in the place of a base plan's. */
final class LearnedPlan {
  private static final MathContext DIGITS = new MathContext(4, RoundingMode.HALF_EVEN);
  private static final MathContext FEW_DIGITS = new MathContext(2, RoundingMode.UP);

  /** IEC 60268-5, 16.1: the lowest modulus over the rated impedance. */
  private static final double RATED_PART = 0.8;

  /** What a plan may state as spread, and as least loss Q. */
  private static final double MOST_SPREAD = 1.5;

  private static final double LEAST_LOSS_Q = 0.5;
  private static final int LONGEST_NAME = 100;

  private final PlannedBox base;
  private final Map<FigureKind, LearnedFigure> learned;

  LearnedPlan(PlannedBox base, Map<FigureKind, LearnedFigure> learned) {
    this.base = base;
    this.learned = learned;
  }

  PlannedBox plan(int boxes) {
    return new PlannedBox(
        name(boxes),
        base.kinds().stream().map(this::kind).toList(),
        base.drivers(),
        base.spaces().stream().map(this::space).toList(),
        base.vents().stream().map(this::vent).toList(),
        base.radiators().stream().map(this::radiator).toList(),
        base.wiring(),
        base.leadOhm(),
        demands());
  }

  private String name(int boxes) {
    String of = ", learned from " + boxes + " boxes";
    String name = base.name();
    int room = LONGEST_NAME - of.length();
    return (name.length() > room ? name.substring(0, room) : name) + of;
  }

  private DriverKind kind(DriverKind kind) {
    String name = kind.name();
    return new DriverKind(
        name,
        coils(kind),
        stated(name, What.RESONANCE, kind.resonanceHz()),
        stated(name, What.MECHANICAL_Q, kind.mechanicalQ()),
        stated(name, What.ELECTRICAL_Q, kind.electricalQ()),
        stated(name, What.EQUIVALENT_VOLUME, kind.equivalentVolumeM3()),
        kind.inductanceHenry(),
        kind.areaM2());
  }

  /** The coils keep what they are to one another. */
  private List<Stated> coils(DriverKind kind) {
    LearnedFigure figure = learned.get(new FigureKind(kind.name(), What.COIL_RESISTANCE));
    if (figure == null) {
      return kind.coilOhm();
    }
    double mean = kind.coilOhm().stream().mapToDouble(Stated::value).average().orElseThrow();
    return kind.coilOhm().stream()
        .map(coil -> new Stated(rounded(coil.value() / mean * figure.value()), spread(figure)))
        .toList();
  }

  private PlannedSpace space(PlannedSpace space) {
    return new PlannedSpace(
        space.name(), stated(space.name(), What.VOLUME, space.volumeM3()), space.lined());
  }

  private PlannedVent vent(PlannedVent vent) {
    return new PlannedVent(
        vent.name(),
        vent.behind(),
        vent.before(),
        stated(vent.name(), What.VENT_TUNING, vent.tuningHz()));
  }

  private PlannedRadiator radiator(PlannedRadiator radiator) {
    String name = radiator.name();
    return new PlannedRadiator(
        name,
        radiator.behind(),
        radiator.before(),
        stated(name, What.RADIATOR_RESONANCE, radiator.resonanceHz()),
        stated(name, What.RADIATOR_Q, radiator.mechanicalQ()),
        stated(name, What.RADIATOR_VOLUME, radiator.equivalentVolumeM3()));
  }

  private Optional<Stated> stated(String part, What what, Optional<Stated> before) {
    LearnedFigure figure = learned.get(new FigureKind(part, what));
    return figure == null
        ? before
        : Optional.of(new Stated(rounded(figure.value()), spread(figure)));
  }

  private static double spread(LearnedFigure figure) {
    return rounded(Math.min(MOST_SPREAD, figure.expectedSpread()), FEW_DIGITS);
  }

  private Demands demands() {
    Demands before = base.demands();
    return new Demands(
        limits("", What.DC_RESISTANCE).or(before::dcResistanceOhm),
        before.dcToleranceFraction(),
        before.ratedImpedanceOhm().or(this::rated),
        bySpace(What.SPACE_TUNING, before.tuningHz()),
        bySpace(What.CLOSED_RESONANCE, before.closedResonanceHz()),
        leastLossQ(before.leastLossQ()));
  }

  /** A base plan's rated impedance is a promise and stays; without one the boxes' own is asked. */
  private Optional<Double> rated() {
    return limits("", What.LOWEST_MODULUS)
        .map(limits -> rounded(limits.low() / RATED_PART, down(DIGITS)));
  }

  private Map<String, Interval> bySpace(What what, Map<String, Interval> before) {
    Map<String, Interval> limits = new HashMap<>(before);
    base.spaces()
        .forEach(
            space -> limits(space.name(), what).ifPresent(each -> limits.put(space.name(), each)));
    return limits;
  }

  private Map<String, Double> leastLossQ(Map<String, Double> before) {
    Map<String, Double> least = new HashMap<>(before);
    base.spaces()
        .forEach(
            space ->
                limits(space.name(), What.LOSS_Q)
                    .ifPresent(
                        each -> least.put(space.name(), Math.max(LEAST_LOSS_Q, each.low()))));
    return least;
  }

  /** Rounded outward. */
  private Optional<Interval> limits(String part, What what) {
    return Optional.ofNullable(learned.get(new FigureKind(part, what)))
        .map(LearnedFigure::limits)
        .map(
            each ->
                new Interval(
                    rounded(each.low(), down(DIGITS)),
                    rounded(each.high(), new MathContext(4, RoundingMode.UP))));
  }

  private static MathContext down(MathContext digits) {
    return new MathContext(digits.getPrecision(), RoundingMode.DOWN);
  }

  private static double rounded(double value) {
    return rounded(value, DIGITS);
  }

  private static double rounded(double value, MathContext digits) {
    return new BigDecimal(value).round(digits).doubleValue();
  }
}
