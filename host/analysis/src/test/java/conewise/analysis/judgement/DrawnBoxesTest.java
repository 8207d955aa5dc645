package conewise.analysis.judgement;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.nodal.BoxFamily;
import conewise.analysis.nodal.BoxFamily.Bounds;
import conewise.analysis.nodal.BoxFamily.Built;
import conewise.analysis.nodal.BoxFault;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.BoxPlan;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.BoxPlan.Limits;
import conewise.analysis.plan.PlannedResistance;
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
  private static final int BOXES = 1500;
  private static final double[][] GRIDS = {
    NodalBox.comb(10, 400, 1), NodalBox.logarithmic(8, 1000, 150), NodalBox.logarithmic(10, 400, 40)
  };

  /**
   * Limits as a shop would set them: tuning within 5 %, rated impedance a little over the
   * resistance, and where wanted a peak not much smaller than the drawn good box's.
   */
  private static BoxPlan plan(Built built, boolean withPeak) {
    BoxPlan p = built.plan();
    Optional<Interval> none = Optional.empty();
    double ohm = PlannedResistance.ohm(p);
    boolean vented = p.kind() == Kind.VENTED;
    double smallest =
        CurveFeatures.of(built.box().curve(GRIDS[1], 0, new Random(1))).extrema().peaks().stream()
                .mapToDouble(peak -> peak.modulusOhm().value())
                .min()
                .orElseThrow()
            / ohm;
    Limits limits =
        new Limits(
            none,
            0.1,
            Optional.of(ohm * 1.1),
            vented
                ? Optional.of(new Interval(built.tuningHz() * 0.95, built.tuningHz() * 1.05))
                : none,
            none,
            none,
            withPeak ? Optional.of(Interval.atLeast(smallest * 0.75)) : none);
    return new BoxPlan(p.name(), p.kind(), p.drivers(), p.wiring(), p.separateSpaces(), 0, limits);
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
      BoxPlan plan = plan(built, r.nextBoolean());
      Optional<BoxFault> fault = drawFault(plan, r);
      fault.ifPresent(f -> f.apply(built, r));
      double noise = r.nextBoolean() ? 0.002 : 0.01;
      double[] grid = GRIDS[r.nextInt(GRIDS.length)];
      Verdict verdict =
          new CurveJudge().judge(plan, Measurement.of(built.box().curve(grid, noise, r)));
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

  private static Optional<BoxFault> drawFault(BoxPlan plan, Random r) {
    List<BoxFault> faults = BoxFault.possibleIn(plan);
    return r.nextInt(3) == 0 || faults.isEmpty()
        ? Optional.empty()
        : Optional.of(faults.get(r.nextInt(faults.size())));
  }

  private static void requireFewUndecided(Map<String, Map<Decision, Integer>> table, long seed) {
    for (Kind kind : Kind.values()) {
      Map<Decision, Integer> good = table.get(kind + " GOOD");
      int all = good.values().stream().mapToInt(Integer::intValue).sum();
      int passed = good.getOrDefault(Decision.PASS, 0);
      assertTrue(passed >= 0.85 * all, "seed " + seed + " " + kind + " " + good);
    }
  }
}
