package conewise.station.chart;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.model.Circuit.Parallel;
import conewise.analysis.model.Circuit.Series;
import java.util.ArrayList;
import java.util.List;

/** A circuit with a number for each lead: 0 at the box's + terminal, the last at its -. */
final class LeadTree {

  /**
   * A part of the circuit.
   *
   * @param circuit what it is
   * @param from the lead at its beginning, towards the box's +
   * @param to the lead at its end
   * @param parts of a series or a parallel; none of a leaf
   */
  record Branch(Circuit circuit, int from, int to, List<Branch> parts) {}

  private static final String PLUS = "+ of ";
  private static final String MINUS = "- of ";

  private final Branch root;
  private final int count;
  private int next = 1;

  LeadTree(Circuit circuit) {
    count = 2 + inner(circuit);
    root = branch(circuit, 0, count - 1);
  }

  Branch root() {
    return root;
  }

  /** How many leads there are. */
  int count() {
    return count;
  }

  /** Leads that neither begin nor end at the box's terminals. */
  private static int inner(Circuit circuit) {
    List<Circuit> parts = parts(circuit);
    int own = circuit instanceof Series ? parts.size() - 1 : 0;
    return own + parts.stream().mapToInt(LeadTree::inner).sum();
  }

  /** Of a series in a series, and of a parallel in a parallel, what is in it: it is one join. */
  private static List<Circuit> parts(Circuit circuit) {
    List<Circuit> parts = new ArrayList<>();
    if (circuit instanceof Series series) {
      series.parts().forEach(p -> parts.addAll(p instanceof Series ? parts(p) : List.of(p)));
    } else if (circuit instanceof Parallel parallel) {
      parallel.parts().forEach(p -> parts.addAll(p instanceof Parallel ? parts(p) : List.of(p)));
    }
    return parts;
  }

  private Branch branch(Circuit circuit, int from, int to) {
    List<Circuit> parts = parts(circuit);
    List<Branch> branches = new ArrayList<>();
    int before = from;
    for (int i = 0; i < parts.size(); i++) {
      boolean joined = circuit instanceof Series && i + 1 < parts.size();
      int after = joined ? next++ : to;
      branches.add(branch(parts.get(i), before, after));
      before = circuit instanceof Series ? after : from;
    }
    return new Branch(circuit, from, to, branches);
  }

  /** Each lead with all that it joins. */
  List<Lead> leads() {
    List<List<String>> ends = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      ends.add(new ArrayList<>());
    }
    ends.get(0).add(PLUS + "the box");
    ends.get(count - 1).add(MINUS + "the box");
    collect(root, ends);
    List<Lead> leads = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      leads.add(new Lead(Lead.letter(i), Lead.Colour.of(i, count), ends.get(i)));
    }
    return leads;
  }

  private static void collect(Branch branch, List<List<String>> ends) {
    branch.parts().forEach(part -> collect(part, ends));
    if (branch.circuit() instanceof Coil coil) {
      String name = "coil " + coil.number() + " of " + coil.driver();
      ends.get(branch.from()).add((coil.reversed() ? MINUS : PLUS) + name);
      ends.get(branch.to()).add((coil.reversed() ? PLUS : MINUS) + name);
    } else if (branch.circuit() instanceof Circuit.Resistance resistance) {
      ends.get(branch.from()).add(resistance.name());
      ends.get(branch.to()).add(resistance.name());
    } else if (branch.circuit() instanceof Circuit.Bridge) {
      ends.get(branch.from()).add("a bridge");
      ends.get(branch.to()).add("a bridge");
    }
  }
}
