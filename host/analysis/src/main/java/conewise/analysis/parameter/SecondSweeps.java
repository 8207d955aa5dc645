package conewise.analysis.parameter;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Opening;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import java.util.ArrayList;
import java.util.List;

/**
 * Which second sweep of a box would tell what the first does not, found by computing what each
 * would add to the information.
 */
public final class SecondSweeps {

  /**
   * A second sweep and what it would settle.
   *
   * @param doThis what to do before it, in words
   * @param box the box then
   * @param settles the sets of unknowns that are open now and would not be after it
   */
  public record Advice(String doThis, BoxModel box, List<List<String>> settles) {
    public Advice {
      settles = List.copyOf(settles);
    }
  }

  private SecondSweeps() {}

  /**
   * The sweeps that would settle something, the one that settles most first.
   *
   * @param box the model of the fit's first sweep
   */
  public static List<Advice> of(BoxFit fit, BoxModel box) {
    List<List<String>> open = fit.openSets();
    List<Advice> advice = new ArrayList<>();
    if (open.isEmpty()) {
      return advice;
    }
    for (Advice candidate : candidates(box)) {
      List<List<String>> after = fit.openSetsAfter(candidate.box());
      int left = after.size();
      if (left < open.size()) {
        List<List<String>> settled =
            open.stream().filter(set -> !after.contains(set)).limit(open.size() - left).toList();
        advice.add(new Advice(candidate.doThis(), candidate.box(), settled));
      }
    }
    advice.sort((a, b) -> Integer.compare(b.settles().size(), a.settles().size()));
    return advice;
  }

  private static List<Advice> candidates(BoxModel box) {
    List<Advice> list = new ArrayList<>();
    for (Opening opening : box.openings()) {
      if (opening instanceof Vent vent) {
        list.add(
            new Advice("close " + vent.name() + " tightly", box.without(vent.name()), List.of()));
      }
    }
    if (box.drivers().size() > 1) {
      for (Mounted mounted : box.drivers()) {
        String name = mounted.name();
        list.add(
            new Advice(
                "swap the leads of " + name,
                box.withCircuit(box.circuit().withReversed(name)),
                List.of()));
        list.add(
            new Advice(
                "unplug " + name + " and leave its leads open",
                box.withCircuit(without(box.circuit(), name)),
                List.of()));
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
