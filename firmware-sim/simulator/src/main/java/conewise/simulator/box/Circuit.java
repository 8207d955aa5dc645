package conewise.simulator.box;

import conewise.simulator.box.Wiring.CoilLeads;
import conewise.simulator.box.Wiring.CoilState;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A wiring tree as loops of current. Each leaf's current is a sum of loop currents; the rule of
 * voltages around each loop is the transpose of the same sums. Coils in series share a loop, so
 * that no current is counted twice and the whole stays a differential equation.
 */
final class Circuit {
  /**
   * A leaf with its current as a sum of loop currents.
   *
   * @param part what it is
   * @param loops factor of each loop current
   */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  record Leaf(Wiring part, double[] loops) {}

  private final List<Leaf> leaves = new ArrayList<>();
  private final int loops;
  private final boolean terminalsOpen;
  private int used;

  /**
   * Lays out the loops.
   *
   * @param terminals the tree that the source drives; its current is loop 0 unless it is open
   * @param closed further trees whose ends touch
   */
  Circuit(Wiring terminals, List<Wiring> closed) {
    List<Wiring> circuits = new ArrayList<>();
    Optional<Wiring> main = conducting(terminals);
    terminalsOpen = main.isEmpty();
    main.ifPresent(circuits::add);
    for (Wiring each : closed) {
      conducting(each).ifPresent(circuits::add);
    }
    terminals.mapCoils(leads -> closeShorted(leads, circuits));
    closed.forEach(each -> each.mapCoils(leads -> closeShorted(leads, circuits)));
    loops = circuits.stream().mapToInt(each -> 1 + extraLoops(each)).sum();
    for (Wiring each : circuits) {
      assign(each, newLoop());
    }
  }

  private static CoilLeads closeShorted(CoilLeads leads, List<Wiring> circuits) {
    if (leads.state() == CoilState.SHORTED) {
      circuits.add(Wiring.coil(leads.driver(), leads.coil()));
    }
    return leads;
  }

  /** Number of independent currents. */
  int loops() {
    return loops;
  }

  /** Whether no current can pass between the terminals. */
  boolean terminalsOpen() {
    return terminalsOpen;
  }

  List<Leaf> leaves() {
    return leaves;
  }

  /** The tree without what carries no current; empty if nothing carries any. */
  private static Optional<Wiring> conducting(Wiring part) {
    if (part instanceof Wiring.OpenCircuit) {
      return Optional.empty();
    } else if (part instanceof CoilLeads leads && leads.state() != CoilState.SOUND) {
      return leads.state() == CoilState.OPEN ? Optional.empty() : Optional.of(new Wiring.Link());
    } else if (part instanceof Wiring.Series series) {
      List<Wiring> parts = series.parts().stream().flatMap(p -> conducting(p).stream()).toList();
      return parts.size() < series.parts().size()
          ? Optional.empty()
          : Optional.of(new Wiring.Series(parts));
    } else if (part instanceof Wiring.Parallel parallel) {
      List<Wiring> parts = parallel.parts().stream().flatMap(p -> conducting(p).stream()).toList();
      return parts.isEmpty() ? Optional.empty() : Optional.of(new Wiring.Parallel(parts));
    }
    return Optional.of(part);
  }

  private static int extraLoops(Wiring part) {
    if (part instanceof Wiring.Series series) {
      return series.parts().stream().mapToInt(Circuit::extraLoops).sum();
    } else if (part instanceof Wiring.Parallel parallel) {
      return parallel.parts().size()
          - 1
          + parallel.parts().stream().mapToInt(Circuit::extraLoops).sum();
    }
    return 0;
  }

  private double[] newLoop() {
    double[] current = new double[loops];
    current[used] = 1;
    used++;
    return current;
  }

  /** Gives each leaf below its current; in parallel the first part takes what the others leave. */
  private void assign(Wiring part, double[] current) {
    if (part instanceof Wiring.Series series) {
      series.parts().forEach(each -> assign(each, current));
    } else if (part instanceof Wiring.Parallel parallel) {
      double[] left = current.clone();
      for (Wiring each : parallel.parts().subList(1, parallel.parts().size())) {
        double[] branch = newLoop();
        for (int k = 0; k < loops; k++) {
          left[k] -= branch[k];
        }
        assign(each, branch);
      }
      assign(parallel.parts().get(0), left);
    } else if (part instanceof CoilLeads leads && leads.reversed()) {
      double[] against = current.clone();
      for (int k = 0; k < loops; k++) {
        against[k] = -against[k];
      }
      leaves.add(new Leaf(part, against));
    } else {
      leaves.add(new Leaf(part, current));
    }
  }
}
