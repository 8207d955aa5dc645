package conewise.analysis.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The independent currents of a circuit (Maxwell's mesh currents, along a tree of series and
 * parallel). Loop 0 is the current at the terminals; each parallel join adds one loop for every
 * part but its first.
 *
 * @param count how many there are
 * @param leaves every coil and resistance that can carry current
 */
record Loops(int count, List<Leaf> leaves) {

  /**
   * A coil or a resistance.
   *
   * @param part the leaf
   * @param current its current as a sum of loop currents
   */
  record Leaf(Circuit part, LoopVector current) {}

  /**
   * What stands for a bridge: far below any coil, far above rounding, so that bridges beside
   * bridges still have one solution.
   */
  static final double BRIDGE_OHM = 1e-6;

  /** The loops of a circuit; empty when no current can pass. */
  static Optional<Loops> of(Circuit circuit) {
    Optional<Circuit> live = conducting(circuit);
    if (live.isEmpty()) {
      return Optional.empty();
    }
    int count = 1 + joins(live.get());
    List<Leaf> leaves = new ArrayList<>();
    double[] through = new double[count];
    through[0] = 1;
    walk(live.get(), through, 1, leaves);
    return Optional.of(new Loops(count, List.copyOf(leaves)));
  }

  private static Optional<Circuit> conducting(Circuit circuit) {
    if (circuit instanceof Circuit.Gap) {
      return Optional.empty();
    }
    if (circuit instanceof Circuit.Series series) {
      List<Circuit> parts = conductingParts(series.parts());
      return parts.size() < series.parts().size()
          ? Optional.empty()
          : Optional.of(new Circuit.Series(parts));
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      List<Circuit> parts = conductingParts(parallel.parts());
      return parts.isEmpty() ? Optional.empty() : Optional.of(new Circuit.Parallel(parts));
    }
    return Optional.of(circuit);
  }

  private static List<Circuit> conductingParts(List<Circuit> parts) {
    return parts.stream().map(Loops::conducting).flatMap(Optional::stream).toList();
  }

  private static int joins(Circuit circuit) {
    if (circuit instanceof Circuit.Series series) {
      return series.parts().stream().mapToInt(Loops::joins).sum();
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      return parallel.parts().size() - 1 + parallel.parts().stream().mapToInt(Loops::joins).sum();
    }
    return 0;
  }

  /** Hands each part its current; returns the next loop that is free. */
  private static int walk(Circuit circuit, double[] through, int free, List<Leaf> leaves) {
    int next = free;
    if (circuit instanceof Circuit.Series series) {
      for (Circuit part : series.parts()) {
        next = walk(part, through, next, leaves);
      }
    } else if (circuit instanceof Circuit.Parallel parallel) {
      double[] rest = through.clone();
      next = free + parallel.parts().size() - 1;
      for (int i = 1; i < parallel.parts().size(); i++) {
        double[] own = new double[through.length];
        own[free + i - 1] = 1;
        rest[free + i - 1] = -1;
        next = walk(parallel.parts().get(i), own, next, leaves);
      }
      next = walk(parallel.parts().get(0), rest, next, leaves);
    } else {
      leaves.add(new Leaf(circuit, new LoopVector(through)));
    }
    return next;
  }
}
