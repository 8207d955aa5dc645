package conewise.analysis.plan;

import conewise.analysis.outcome.Interval;
import java.util.Map;
import java.util.Optional;

/**
 * What must hold of a box beside its being built as planned. What is left out is not asked.
 *
 * @param dcResistanceOhm DC resistance at the terminals; where empty it follows from coils, wiring
 *     and leads with {@code dcToleranceFraction}
 * @param dcToleranceFraction relative tolerance of the derived resistance, above 0, below 1
 * @param ratedImpedanceOhm the rated impedance: the lowest modulus may not fall below 80 % of it
 *     (IEC 60268-5, 16.1)
 * @param tuningHz limits of the fitted tuning, by the name of the space that is vented
 * @param closedResonanceHz limits of the resonance in the box, by the name of the closed space
 * @param leastLossQ the least Q of what a space loses by leaks, vent and lining together, by the
 *     name of the space; a leak lowers it
 */
public record Demands(
    Optional<Interval> dcResistanceOhm,
    double dcToleranceFraction,
    Optional<Double> ratedImpedanceOhm,
    Map<String, Interval> tuningHz,
    Map<String, Interval> closedResonanceHz,
    Map<String, Double> leastLossQ) {

  /** Tolerance of a derived DC resistance where a plan gives none. */
  public static final double USUAL_DC_TOLERANCE = 0.1;

  /** Nothing but the resistance that follows from the coils. */
  public static final Demands NONE =
      new Demands(
          Optional.empty(), USUAL_DC_TOLERANCE, Optional.empty(), Map.of(), Map.of(), Map.of());

  public Demands {
    tuningHz = Map.copyOf(tuningHz);
    closedResonanceHz = Map.copyOf(closedResonanceHz);
    leastLossQ = Map.copyOf(leastLossQ);
    if (!(dcToleranceFraction > 0 && dcToleranceFraction < 1)) {
      throw new IllegalArgumentException(
          "the DC tolerance is "
              + dcToleranceFraction
              + "; it must lie between 0 and 1, both left out");
    }
  }
}
