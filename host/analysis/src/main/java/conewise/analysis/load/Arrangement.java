package conewise.analysis.load;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import java.util.List;

/**
 * One way to join coils.
 *
 * @param circuit how they are joined
 * @param load what that is, with each coil's part
 */
public record Arrangement(Circuit circuit, TerminalLoad load) {
  private static final double ALIKE = 1e-9;

  /** Whether each coil has as much of the power as any other. */
  public boolean sharesEvenly() {
    return load.mostPower() - load.leastPower() < ALIKE;
  }

  /** How many joins lie within one another at most; 0 of a single coil. */
  public int depth() {
    return depth(circuit);
  }

  /** How many series and parallel joins there are. */
  public int joins() {
    return joins(circuit);
  }

  private static int depth(Circuit circuit) {
    List<Circuit> parts = parts(circuit);
    return parts.isEmpty()
        ? 0
        : 1 + parts.stream().mapToInt(Arrangement::depth).max().orElseThrow();
  }

  private static int joins(Circuit circuit) {
    List<Circuit> parts = parts(circuit);
    return parts.isEmpty() ? 0 : 1 + parts.stream().mapToInt(Arrangement::joins).sum();
  }

  private static List<Circuit> parts(Circuit circuit) {
    if (circuit instanceof Series series) {
      return series.parts();
    }
    return circuit instanceof Parallel parallel ? parallel.parts() : List.of();
  }
}
