package conewise.analysis.diagnosis;

import conewise.analysis.fit.Unknown;
import conewise.analysis.model.Quantity.Kind;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Where fits of like drivers begin. What two of them show when they are a little apart goes with
 * the square of that: seen from where they are equal there is no way to it, so each fit begins also
 * where they are apart, and the stiffer has the stronger motor, or the weaker.
 */
final class LikeDrivers {
  private LikeDrivers() {}

  /** Where a fit ended, and from there with like drivers apart, if it has such. */
  static List<Map<String, Double>> starts(Weighed weighed) {
    Map<String, Double> at = weighed.plausibility().coordinates();
    List<Unknown> unknowns = weighed.hypothesis().candidate().unknowns();
    return unknowns.stream().anyMatch(each -> isOwn(each, Kind.RESONANCE))
        ? List.of(at, apart(unknowns, at, 1), apart(unknowns, at, -1))
        : List.of(at);
  }

  private static Map<String, Double> apart(
      List<Unknown> unknowns, Map<String, Double> at, double motorSide) {
    Map<String, Double> apart = new HashMap<>(at);
    move(unknowns, apart, Kind.RESONANCE, 1);
    move(unknowns, apart, Kind.ELECTRICAL_Q, motorSide);
    return apart;
  }

  /** One to this side, the next to the other. */
  private static void move(
      List<Unknown> unknowns, Map<String, Double> apart, Kind kind, double side) {
    double sign = side;
    for (Unknown each : unknowns) {
      if (isOwn(each, kind)) {
        apart.put(each.name(), each.centre() + sign * each.spread());
        sign = -sign;
      }
    }
  }

  private static boolean isOwn(Unknown unknown, Kind kind) {
    return unknown.inherent() && unknown.moves().get(0).kind() == kind;
  }
}
