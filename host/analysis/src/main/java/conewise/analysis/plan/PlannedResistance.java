package conewise.analysis.plan;

import conewise.analysis.plan.Wiring.Coil;
import conewise.analysis.plan.Wiring.Parallel;
import conewise.analysis.plan.Wiring.Series;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;

/**
 * The DC resistance that a plan's coils and wiring give at the terminals, and what it would be
 * after each single slip of the pliers.
 */
public final class PlannedResistance {

  /**
   * A slip and the resistance that it leaves.
   *
   * @param slip what was done, in words
   * @param ohm the resistance at the terminals; infinite where nothing conducts any more
   */
  public record Slip(String slip, double ohm) {}

  private PlannedResistance() {}

  /** The resistance as planned, in ohm, leads included (Ohm, Kirchhoff). */
  public static double ohm(BoxPlan plan) {
    return plan.leadOhm() + of(plan.wiring(), plan::coilOhm);
  }

  private static double of(Wiring wiring, ToDoubleFunction<Coil> coilOhm) {
    if (wiring instanceof Series series) {
      return series.parts().stream().mapToDouble(part -> of(part, coilOhm)).sum();
    }
    if (wiring instanceof Parallel parallel) {
      return 1 / parallel.parts().stream().mapToDouble(part -> 1 / of(part, coilOhm)).sum();
    }
    return coilOhm.applyAsDouble((Coil) wiring);
  }

  /**
   * Each single slip: one coil open, one coil shorted, all joins in series, all in parallel, series
   * and parallel exchanged in one join or in all. Polarity never shows at DC and is not among them.
   */
  public static List<Slip> slips(BoxPlan plan) {
    List<Slip> slips = new ArrayList<>();
    for (Coil coil : plan.wiring().coils()) {
      slips.add(oneCoil(plan, coil, Double.POSITIVE_INFINITY, "is open or not connected"));
      slips.add(oneCoil(plan, coil, 0, "is shorted"));
    }
    if (plan.wiring().coils().size() > 1) {
      List<Wiring> all = List.copyOf(plan.wiring().coils());
      addIfNew(slips, plan, new Series(all), "all coils are in series");
      addIfNew(slips, plan, new Parallel(all), "all coils are in parallel");
      addIfNew(
          slips, plan, exchanged(plan.wiring()), "series and parallel are exchanged throughout");
      for (Wiring other : exchangedOnce(plan.wiring())) {
        addIfNew(slips, plan, other, "series and parallel are exchanged in one join");
      }
    }
    return slips;
  }

  private static Slip oneCoil(BoxPlan plan, Coil broken, double ohm, String what) {
    double total =
        of(plan.wiring(), coil -> coil.equals(broken) ? ohm : plan.coilOhm(coil)) + plan.leadOhm();
    return new Slip(
        String.format(
            Locale.ROOT, "coil %d of driver %s %s", broken.number(), broken.driver(), what),
        total);
  }

  private static void addIfNew(List<Slip> slips, BoxPlan plan, Wiring other, String what) {
    if (!other.equals(plan.wiring())) {
      slips.add(new Slip(what, of(other, plan::coilOhm) + plan.leadOhm()));
    }
  }

  private static Wiring exchanged(Wiring wiring) {
    if (wiring instanceof Series series) {
      return new Parallel(series.parts().stream().map(PlannedResistance::exchanged).toList());
    }
    if (wiring instanceof Parallel parallel) {
      return new Series(parallel.parts().stream().map(PlannedResistance::exchanged).toList());
    }
    return wiring;
  }

  /** Each tree that differs in one join; all joins of equal depth and kind count as several. */
  private static List<Wiring> exchangedOnce(Wiring wiring) {
    List<Wiring> others = new ArrayList<>();
    if (wiring instanceof Coil) {
      return others;
    }
    boolean series = wiring instanceof Series;
    List<Wiring> parts = series ? ((Series) wiring).parts() : ((Parallel) wiring).parts();
    others.add(series ? new Parallel(parts) : new Series(parts));
    List<Wiring> below = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      for (Wiring other : exchangedOnce(parts.get(i))) {
        List<Wiring> changed = new ArrayList<>(parts);
        changed.set(i, other);
        others.add(series ? new Series(changed) : new Parallel(changed));
      }
      below.addAll(exchangedOnce(parts.get(i)).stream().limit(1).toList());
    }
    if (below.size() == parts.size()) {
      others.add(series ? new Series(below) : new Parallel(below));
    }
    return others;
  }
}
