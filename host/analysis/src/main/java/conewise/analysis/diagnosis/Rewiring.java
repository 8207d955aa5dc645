package conewise.analysis.diagnosis;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import java.util.ArrayList;
import java.util.List;

/** The slips of the pliers that join the right coils the wrong way: series for parallel. */
final class Rewiring {

  /**
   * A slip.
   *
   * @param id a stable name
   * @param sentence what is wrong, without a full stop
   * @param circuit what was wired
   */
  record Slip(String id, String sentence, Circuit circuit) {}

  private Rewiring() {}

  /** Each slip that makes another tree; none for a single coil. */
  static List<Slip> slipsOf(Circuit planned) {
    List<Slip> slips = new ArrayList<>();
    List<Circuit> coils = List.copyOf(planned.coils());
    if (coils.size() < 2) {
      return slips;
    }
    add(slips, planned, "all-series", "all coils are joined in series", new Series(coils));
    add(slips, planned, "all-parallel", "all coils are joined in parallel", new Parallel(coils));
    add(
        slips,
        planned,
        "exchanged",
        "series and parallel are exchanged throughout",
        exchanged(planned));
    List<Circuit> once = exchangedOnce(planned);
    for (int i = 0; i < once.size(); i++) {
      add(
          slips,
          planned,
          "join-" + (i + 1),
          "series and parallel are exchanged in the join of " + coilsChanged(planned, i),
          once.get(i));
    }
    return slips;
  }

  private static void add(
      List<Slip> slips, Circuit planned, String id, String sentence, Circuit other) {
    if (!other.equals(planned) && slips.stream().noneMatch(s -> s.circuit().equals(other))) {
      slips.add(new Slip(id, sentence, other));
    }
  }

  private static Circuit exchanged(Circuit circuit) {
    if (circuit instanceof Series series) {
      return new Parallel(series.parts().stream().map(Rewiring::exchanged).toList());
    }
    if (circuit instanceof Parallel parallel) {
      return new Series(parallel.parts().stream().map(Rewiring::exchanged).toList());
    }
    return circuit;
  }

  /** The joins of a tree, outermost first. */
  private static List<Circuit> joins(Circuit circuit) {
    List<Circuit> joins = new ArrayList<>();
    if (circuit instanceof Series || circuit instanceof Parallel) {
      joins.add(circuit);
      parts(circuit).forEach(part -> joins.addAll(joins(part)));
    }
    return joins;
  }

  private static List<Circuit> parts(Circuit circuit) {
    return circuit instanceof Series series ? series.parts() : ((Parallel) circuit).parts();
  }

  private static List<Circuit> exchangedOnce(Circuit planned) {
    return joins(planned).stream()
        .map(
            join ->
                within(
                    planned,
                    join,
                    join instanceof Series ? new Parallel(parts(join)) : new Series(parts(join))))
        .toList();
  }

  private static Circuit within(Circuit tree, Circuit join, Circuit other) {
    if (tree == join) {
      return other;
    }
    if (tree instanceof Series series) {
      return new Series(series.parts().stream().map(part -> within(part, join, other)).toList());
    }
    if (tree instanceof Parallel parallel) {
      return new Parallel(
          parallel.parts().stream().map(part -> within(part, join, other)).toList());
    }
    return tree;
  }

  private static String coilsChanged(Circuit planned, int join) {
    List<String> names =
        joins(planned).get(join).coils().stream().map(Coil::driver).distinct().toList();
    return String.join(" and ", names);
  }
}
