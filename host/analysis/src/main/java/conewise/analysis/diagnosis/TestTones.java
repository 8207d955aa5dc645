package conewise.analysis.diagnosis;

import conewise.analysis.model.AirFlow;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import java.util.List;

/**
 * The tones for tests by hand and ear, and what the model says of them.
 *
 * <p>At the tuning the cones rest nearly and the vent does the work (R. H. Small, J. Audio Eng.
 * Soc. 21, 1973): there the wind at a vent is read. Above it the cones do the work, so there a
 * reversed one is heard; at twice the tuning and more, drivers that stand apart no longer cancel
 * for every listener, and the room has its say (common practice).
 */
public final class TestTones {
  /** Where the tone of the level is looked for, over the tuning. */
  static final double LOWEST = 1.3;

  static final double HIGHEST = 2;

  private static final int STEPS = 29;

  /** Unlike drivers and a room leave so much of what cancels by the model. */
  private static final double LEFT_OVER = 0.05;

  /** Drops that differ by less sound alike; of those the loudest tone is taken. */
  private static final double ALIKE_DECIBEL = 1;

  private final BoxModel box;
  private final List<Quantity> quantities;
  private final double[] values;

  /**
   * Of a box with given values.
   *
   * @param values in the order of {@link Network#quantities}, from a fit or {@link Network#nominal}
   */
  public TestTones(BoxModel box, double[] values) {
    this.box = box;
    this.quantities = Network.of(box).quantities();
    this.values = values.clone();
  }

  /** Of a box as it is stated. */
  public static TestTones of(BoxModel box) {
    return new TestTones(box, Network.of(box).nominal());
  }

  /**
   * A tone to hear a swap by.
   *
   * @param frequencyHz its frequency
   * @param tuningHz the tuning, or the resonance in a closed box, that it was chosen above
   * @param dropDecibel how much softer a good box becomes by the swap, above 0
   */
  public record SwapTone(double frequencyHz, double tuningHz, double dropDecibel) {}

  /**
   * The tuning of the space that a vent is of: the wind is strongest there.
   *
   * @throws IllegalArgumentException where the box has no such vent
   */
  public double portHz(String vent) {
    return box.openings().stream()
        .filter(each -> each instanceof Opening.Vent && each.name().equals(vent))
        .map(each -> ventedHz(each.behind()))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no vent is named " + vent));
  }

  /**
   * The tone between {@value #LOWEST} and {@value #HIGHEST} of the tuning at which swapping one
   * driver's leads takes most of a good box's sound away; where several do alike, the loudest.
   *
   * @throws IllegalArgumentException where the box has no such driver
   */
  public SwapTone swap(String driver) {
    double base = baseHz(driver);
    double most = 0;
    for (int i = 0; i < STEPS; i++) {
      most = Math.max(most, -changeDecibel(driver, hz(base, i)));
    }
    double best = base * LOWEST;
    double loudest = -1;
    for (int i = 0; i < STEPS; i++) {
      double sound = AirFlow.of(box, values, hz(base, i)).sound();
      if (-changeDecibel(driver, hz(base, i)) >= most - ALIKE_DECIBEL && sound > loudest) {
        loudest = sound;
        best = hz(base, i);
      }
    }
    return new SwapTone(best, base, -changeDecibel(driver, best));
  }

  private static double hz(double base, int step) {
    return base * LOWEST * Math.pow(HIGHEST / LOWEST, step / (STEPS - 1.0));
  }

  /** How much louder a tone becomes by swapping a driver's leads, in decibel. */
  double changeDecibel(String driver, double hz) {
    BoxModel swapped = box.withCircuit(box.circuit().withReversed(driver));
    double before = level(AirFlow.of(box, values, hz));
    double after = level(AirFlow.of(swapped, values, hz));
    return before == 0 ? 0 : Sensed.decibel(after, before);
  }

  private static double level(AirFlow flow) {
    return Math.hypot(flow.outward().abs(), LEFT_OVER * flow.stirred());
  }

  private double value(String part, Kind kind) {
    return values[quantities.indexOf(new Quantity(part, kind))];
  }

  private double baseHz(String driver) {
    Mounted mounted =
        box.drivers().stream()
            .filter(each -> each.name().equals(driver))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no driver is named " + driver));
    String space = mounted.behind().equals(Space.OUTSIDE) ? mounted.before() : mounted.behind();
    double tuned = ventedHz(space);
    if (tuned > 0) {
      return tuned;
    }
    double radiated = radiatorHz(space);
    return radiated > 0 ? radiated : closedHz(driver, space);
  }

  /** Masses of vents lie side by side, so the squares of their tunings add up. */
  private double ventedHz(String space) {
    return Math.sqrt(
        box.openings().stream()
            .filter(each -> each instanceof Opening.Vent && each.behind().equals(space))
            .mapToDouble(each -> Math.pow(value(each.name(), Kind.TUNING), 2))
            .sum());
  }

  /** fB = fp sqrt(1 + Vap/V) (R. H. Small, J. Audio Eng. Soc. 22, 1974, from memory). */
  private double radiatorHz(String space) {
    return box.openings().stream()
        .filter(each -> each instanceof Opening.PassiveRadiator && each.behind().equals(space))
        .mapToDouble(
            each ->
                value(each.name(), Kind.RESONANCE)
                    * Math.sqrt(
                        1 + value(each.name(), Kind.EQUIVALENT_VOLUME) / value(space, Kind.VOLUME)))
        .max()
        .orElse(0);
  }

  /** fc = fs sqrt(1 + Vas/V) (Small, J. Audio Eng. Soc. 20, 1972); fs in free air. */
  private double closedHz(String driver, String space) {
    double alpha =
        space.equals(Space.OUTSIDE)
            ? 0
            : box.drivers().stream()
                    .filter(m -> m.behind().equals(space) || m.before().equals(space))
                    .mapToDouble(m -> value(m.name(), Kind.EQUIVALENT_VOLUME))
                    .sum()
                / value(space, Kind.VOLUME);
    return value(driver, Kind.RESONANCE) * Math.sqrt(1 + alpha);
  }
}
