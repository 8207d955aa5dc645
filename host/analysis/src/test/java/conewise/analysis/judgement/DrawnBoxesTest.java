package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.nodal.BoxFamily;
import conewise.analysis.nodal.BoxFamily.Bounds;
import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.BoxFamily.Kind;
import conewise.analysis.nodal.BoxFault;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** Drawn boxes, good and wrong, solved by node equations of the tests' own, and judged. */
class DrawnBoxesTest {
  private static final int BOXES = 100;
  private static final double DC_NOISE = 0.003;
  private static final double[][] GRIDS = {
    NodalBox.comb(10, 400, 1), NodalBox.logarithmic(8, 1000, 150), NodalBox.logarithmic(10, 400, 40)
  };

  /** Limits as a shop would set them: tuning within 5 %, a rated impedance. */
  private static PlannedBox plan(Built built) {
    PlannedBox p = built.plan();
    double ohm = DirectResistance.ohm(p.model());
    Map<String, Interval> tuning = new TreeMap<>();
    p.vents()
        .forEach(
            vent ->
                tuning.put(
                    vent.behind(), new Interval(built.tuningHz() * 0.95, built.tuningHz() * 1.05)));
    Demands demands =
        new Demands(Optional.empty(), 0.1, Optional.of(ohm * 1.1), tuning, Map.of(), Map.of());
    return new PlannedBox(
        p.name(),
        p.kinds(),
        p.drivers(),
        p.spaces(),
        p.vents(),
        p.radiators(),
        p.wiring(),
        0,
        demands);
  }

  @Test
  void noGoodBoxFailsAndNoFaultThatTheTerminalsShowPasses() {
    long seed = 424242;
    Random r = new Random(seed);
    Map<String, Map<Decision, Integer>> table = new TreeMap<>();
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < BOXES; i++) {
      Kind kind = r.nextInt(3) == 0 ? Kind.SEALED : Kind.VENTED;
      boolean separate = r.nextInt(10) == 0;
      Bounds bounds =
          new Bounds(4, 0.15, r.nextBoolean() ? 0.05 : 0.1, 0.2, i % 5 == 0 ? 4 : 1.5, 2);
      Built built = BoxFamily.draw(r, kind, separate, bounds);
      PlannedBox plan = plan(built);
      Optional<BoxFault> fault = drawFault(built, r);
      fault.ifPresent(f -> f.apply(built, r));
      double noise = r.nextBoolean() ? 0.002 : 0.01;
      double[] grid = GRIDS[r.nextInt(GRIDS.length)];
      Verdict verdict =
          new BoxJudge().judge(plan, Measurement.of(swept(built.box(), grid, noise, r)));
      String truth = fault.map(BoxFault::name).orElse("GOOD");
      String row = (separate ? "separate " : "") + kind + " " + truth;
      table
          .computeIfAbsent(row, key -> new EnumMap<>(Decision.class))
          .merge(verdict.decision(), 1, Integer::sum);
      Decision never = fault.isPresent() ? Decision.PASS : Decision.FAIL;
      if (verdict.decision() == never) {
        wrong.add(i + " " + row + " -> " + verdict.headline() + " " + built.story());
      }
    }
    System.out.println("seed " + seed);
    table.forEach((row, n) -> System.out.println("  " + row + " " + n));
    assertEquals(List.of(), wrong, "seed " + seed);
    requireFewUndecided(table, seed);
  }

  /** As a jig sweeps: the resistance to direct current comes first, known to 0.3 %. */
  private static ImpedanceCurve swept(NodalBox box, double[] grid, double noise, Random r) {
    double ohm = box.curve(new double[] {1e-4}, 0, r).points().get(0).resistanceOhm();
    List<ImpedancePoint> points = new ArrayList<>();
    points.add(
        new ImpedancePoint(
            0,
            ohm * (1 + DC_NOISE * r.nextGaussian()),
            0,
            Optional.of(ImpedanceUncertainty.ofResistance(DC_NOISE * ohm))));
    points.addAll(box.curve(grid, noise, r).points());
    return new ImpedanceCurve(points);
  }

  private static Optional<BoxFault> drawFault(Built built, Random r) {
    List<BoxFault> faults = BoxFault.possibleIn(built);
    return r.nextInt(3) == 0 || faults.isEmpty()
        ? Optional.empty()
        : Optional.of(faults.get(r.nextInt(faults.size())));
  }

  private static void requireFewUndecided(Map<String, Map<Decision, Integer>> table, long seed) {
    for (Kind kind : Kind.values()) {
      Map<Decision, Integer> good = table.get(kind + " GOOD");
      int all = good.values().stream().mapToInt(Integer::intValue).sum();
      int passed = good.getOrDefault(Decision.PASS, 0);
      assertTrue(passed >= 0.8 * all, "seed " + seed + " " + kind + " " + good);
    }
  }
}
