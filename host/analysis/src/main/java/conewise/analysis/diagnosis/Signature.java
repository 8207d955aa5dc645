package conewise.analysis.diagnosis;

import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.fit.Unknown;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What a candidate shows at the terminals, at two places of all that it may be: two candidates of
 * one signature are one to any sweep. Unknowns of the same kind are moved alike, so that like
 * drivers may stand for each other.
 *
 * @param figures grains of the logarithms of modulus and angle, place after place
 */
public record Signature(List<Long> figures) {
  private static final double[] FREQUENCIES_HZ = {0, 12, 19, 31, 47, 83, 160, 330};

  /** Impedances are compared to so many parts of their logarithm: 1e-7. */
  private static final double GRAIN = 1e7;

  /** An angle that no ratio of whole numbers meets (the golden ratio's part). */
  private static final double TURN = 0.6180339887498949;

  public Signature {
    figures = List.copyOf(figures);
  }

  /** Of a candidate whose circuit conducts. */
  public static Signature of(Candidate candidate) {
    List<Long> figures = new ArrayList<>();
    for (double size : new double[] {0, 1}) {
      Map<String, Double> coordinates = new HashMap<>();
      for (Unknown unknown : candidate.unknowns()) {
        coordinates.put(unknown.name(), unknown.centre() + size * unknown.spread() * turn(unknown));
      }
      for (ImpedancePoint point :
          PredictedCurve.of(candidate.model(), candidate.unknowns(), coordinates, FREQUENCIES_HZ)
              .points()) {
        figures.add(Math.round(GRAIN * Math.log(point.modulusOhm())));
        figures.add(Math.round(GRAIN * Math.atan2(point.reactanceOhm(), point.resistanceOhm())));
      }
    }
    return new Signature(figures);
  }

  /** From -0.5 to 0.5, the same for all of a kind that move together; 0 for a driver by itself. */
  private static double turn(Unknown unknown) {
    if (unknown.inherent()) {
      return 0;
    }
    Quantity first = unknown.moves().get(0);
    double turned = TURN * (1 + List.of(Kind.values()).indexOf(first.kind()));
    return turned - Math.floor(turned) - 0.5;
  }
}
