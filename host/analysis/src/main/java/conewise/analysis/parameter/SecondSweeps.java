package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Which second sweep of a box would tell what the first does not, found by computing what each
 * would add to the information.
 */
public final class SecondSweeps {

  /**
   * A second sweep and what it would tell: something at least.
   *
   * @param doThis what to do before it, in words
   * @param box the box then
   * @param settles the sets of unknowns that are open now and would not be after it
   * @param narrows the sets that would still be open, but less than half as far
   */
  public record Advice(
      String doThis, BoxModel box, List<List<String>> settles, List<List<String>> narrows) {
    public Advice {
      settles = List.copyOf(settles);
      narrows = List.copyOf(narrows);
    }
  }

  /** A state that a box may be swept in. */
  private record State(String doThis, BoxModel box) {}

  private SecondSweeps() {}

  /**
   * The sweeps that would settle or narrow something, the one that settles most first, and of those
   * that settle alike the one that narrows most.
   *
   * @param box the model of the fit's first sweep
   */
  public static List<Advice> of(BoxFit fit, BoxModel box) {
    List<List<String>> open = fit.openSets();
    List<Advice> advice = new ArrayList<>();
    if (open.isEmpty()) {
      return advice;
    }
    for (State state : states(box)) {
      List<List<String>> after = fit.openSetsAfter(state.box());
      List<List<String>> settled =
          open.stream()
              .filter(set -> !after.contains(set))
              .limit(Math.max(0, open.size() - after.size()))
              .toList();
      List<List<String>> narrowed =
          fit.narrowedAfter(state.box()).stream().filter(set -> !settled.contains(set)).toList();
      if (!settled.isEmpty() || !narrowed.isEmpty()) {
        advice.add(new Advice(state.doThis(), state.box(), settled, narrowed));
      }
    }
    advice.sort(
        Comparator.<Advice>comparingInt(each -> -each.settles().size())
            .thenComparingInt(each -> -each.narrows().size()));
    return advice;
  }

  private static List<State> states(BoxModel box) {
    List<State> list = new ArrayList<>();
    for (Opening opening : box.openings()) {
      if (opening instanceof Vent vent) {
        list.add(new State("close " + vent.name() + " tightly", box.without(vent.name())));
      }
    }
    if (box.drivers().size() > 1) {
      for (Mounted mounted : box.drivers()) {
        String name = mounted.name();
        list.add(
            new State(
                "swap the leads of " + name, box.withCircuit(box.circuit().withReversed(name))));
        list.add(
            new State(
                "unplug " + name + " and leave its leads open",
                box.withCircuit(without(box.circuit(), name))));
      }
    }
    return list.stream().filter(each -> each.box().conducts()).toList();
  }

  private static Circuit without(Circuit circuit, String driver) {
    if (circuit instanceof Circuit.Coil coil) {
      return coil.driver().equals(driver) ? new Circuit.Gap() : coil;
    }
    if (circuit instanceof Circuit.Series series) {
      return new Circuit.Series(series.parts().stream().map(p -> without(p, driver)).toList());
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      return new Circuit.Parallel(parallel.parts().stream().map(p -> without(p, driver)).toList());
    }
    return circuit;
  }
}
