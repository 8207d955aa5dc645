package conewise.analysis.diagnosis;

import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.fit.Unknown;
import conewise.analysis.model.AirFlow;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Network;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;

/**
 * A box as it may have been built: its model, and how far it may lie from that.
 *
 * @param model the box
 * @param unknowns what may move, each with a finite spread
 */
public record Candidate(BoxModel model, List<Unknown> unknowns) {
  private static final double ROOM = 3;

  public Candidate {
    unknowns = List.copyOf(unknowns);
  }

  /** The same with another model. */
  public Candidate with(UnaryOperator<BoxModel> change) {
    return new Candidate(change.apply(model), unknowns);
  }

  /** The same, wired otherwise. */
  public Candidate wired(UnaryOperator<Circuit> change) {
    return with(box -> box.withCircuit(change.apply(box.circuit())));
  }

  /** The same with one more thing that may move. */
  public Candidate and(Unknown unknown) {
    List<Unknown> more = new ArrayList<>(unknowns);
    more.add(unknown);
    return new Candidate(model, more);
  }

  /** The air that it moves where its unknowns are as expected. */
  AirFlow flow(double frequencyHz) {
    return AirFlow.of(model, expected(), frequencyHz);
  }

  /** The tones to try it by, its unknowns being as expected. */
  TestTones tones() {
    return new TestTones(model, expected());
  }

  private double[] expected() {
    return PredictedCurve.values(Network.of(model), unknowns, Map.of());
  }

  /**
   * The same with a quantity expected elsewhere, with room there for three spreads.
   *
   * @param centre the coordinate where it is expected: the logarithm of its factor
   * @param spread the coordinate's standard deviation there
   * @param parts whose quantity; where all that move together are named their one unknown is
   *     changed, else they get one of their own
   */
  public Candidate expecting(Kind kind, double centre, double spread, String... parts) {
    List<Quantity> quantities =
        java.util.Arrays.stream(parts).map(part -> new Quantity(part, kind)).toList();
    List<Unknown> changed = new ArrayList<>(unknowns);
    for (int i = 0; i < changed.size(); i++) {
      Unknown each = changed.get(i);
      if (!each.inherent() && new HashSet<>(each.moves()).equals(new HashSet<>(quantities))) {
        changed.set(i, expected(each, each.centre() + centre, spread));
        return new Candidate(model, changed);
      }
    }
    Unknown own = Unknown.planned(spread, quantities.toArray(Quantity[]::new)).about(centre);
    boolean beside = changed.stream().anyMatch(each -> each.moves().containsAll(quantities));
    return and(beside ? own.named(own.name() + " in particular") : own);
  }

  private static Unknown expected(Unknown unknown, double centre, double spread) {
    return unknown
        .between(
            Math.min(unknown.low(), centre - ROOM * spread),
            Math.max(unknown.high(), centre + ROOM * spread))
        .about(centre)
        .within(spread);
  }
}
