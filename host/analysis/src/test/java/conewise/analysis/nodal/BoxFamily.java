package conewise.analysis.nodal;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** Draws boxes: a plan, and the box as built, whose drivers wander from the plan. */
public final class BoxFamily {

  /** How a box works. */
  public enum Kind {
    SEALED,
    VENTED
  }

  /** What is built and what was meant. */
  public record Built(
      PlannedBox plan, NodalBox box, Kind kind, boolean separate, double tuningHz, String story) {}

  /** What a family may hold. */
  public record Bounds(
      int mostDrivers,
      double drift,
      double spread,
      double coilLow,
      double coilHigh,
      int mostCoils) {
    public static Bounds usual() {
      return new Bounds(4, 0.15, 0.05, 0.2, 1.5, 2);
    }
  }

  private BoxFamily() {}

  private static double between(Random r, double low, double high) {
    return low + (high - low) * r.nextDouble();
  }

  /** Draws one; everything follows from the random source. */
  public static Built draw(Random r, Kind kind, boolean separate, Bounds bounds) {
    int count = separate ? 2 : 1 + r.nextInt(bounds.mostDrivers());
    int coils = 1 + r.nextInt(bounds.mostCoils());
    double fs = between(r, 24, 55);
    double qes = between(r, 0.28, 0.6);
    double qms = between(r, 3, 9);
    double alpha = kind == Kind.VENTED ? between(r, 0.5, 3.5) : between(r, 0.6, 4);
    double h = between(r, 0.75, 1.35);
    double coilOhm = new double[] {3.2, 3.5, 5.6, 6.4}[r.nextInt(4)];
    double mass = between(r, 0.015, 0.2);
    double area = between(r, 0.015, 0.06);
    double compliance = 1 / (Math.pow(2 * Math.PI * fs, 2) * mass);
    double vas = 1.204 * 343.2 * 343.2 * area * area * compliance;
    double tuning = kind == Kind.VENTED ? h * fs : 0;
    double coilAt1k = between(r, bounds.coilLow(), bounds.coilHigh()) * coilOhm;
    double n = between(r, 0.5, 0.9);
    NodalBox box = new NodalBox();
    int spaces = separate ? count : 1;
    double quality = between(r, 5, 20);
    double leakShare = between(r, 0.3, 1);
    for (int s = 0; s < spaces; s++) {
      NodalBox.Space space = new NodalBox.Space();
      space.volume = vas / alpha * count / spaces;
      space.tuningHz = tuning;
      space.leakQuality = quality / leakShare * (kind == Kind.SEALED ? 3 : 1);
      space.ventQuality = leakShare < 1 ? quality / (1 - leakShare) : 1e9;
      box.spaces.add(space);
    }
    double driftC = 1 + between(r, -bounds.drift(), bounds.drift());
    double driftB = 1 + between(r, -bounds.drift(), bounds.drift()) / 2;
    List<PlacedDriver> planned = new ArrayList<>();
    double force = Math.sqrt(coilOhm * 2 * Math.PI * fs * mass / (qes * coils));
    for (int i = 0; i < count; i++) {
      NodalBox.Driver d = new NodalBox.Driver();
      d.mass = mass * (1 + between(r, -bounds.spread(), bounds.spread()) / 2);
      d.compliance = compliance * driftC * (1 + between(r, -1, 1) * bounds.spread());
      d.loss = 2 * Math.PI * fs * mass / qms * (1 + between(r, -2, 2) * bounds.spread());
      d.area = area;
      d.space = separate ? i : 0;
      for (int k = 0; k < coils; k++) {
        NodalBox.Coil coil = new NodalBox.Coil();
        coil.resistance = coilOhm * (1 + between(r, -0.02, 0.02));
        coil.force = force * driftB * (1 + between(r, -0.5, 0.5) * bounds.spread());
        coil.lossyN = n;
        coil.lossyK = coilAt1k / Math.pow(2000 * Math.PI, n);
        d.coils.add(coil);
      }
      box.drivers.add(d);
      planned.add(new PlacedDriver("d" + (i + 1), "kind", "s" + d.space, Space.OUTSIDE));
    }
    boolean coilsSeries = r.nextBoolean();
    boolean driversSeries = r.nextInt(3) == 0;
    Circuit wiring = wire(box, coilsSeries, driversSeries);
    DriverKind sheet =
        new DriverKind(
            "kind",
            Collections.nCopies(coils, new Stated(coilOhm, 0.05)),
            stated(fs, 0.12),
            stated(qms, 0.3),
            stated(qes, 0.15),
            stated(vas, 0.15),
            Optional.empty(),
            Optional.empty());
    List<PlannedSpace> enclosed = new ArrayList<>();
    List<PlannedVent> vents = new ArrayList<>();
    for (int s = 0; s < spaces; s++) {
      enclosed.add(new PlannedSpace("s" + s, stated(vas / alpha * count / spaces, 0.03), false));
      if (kind == Kind.VENTED) {
        vents.add(new PlannedVent("v" + s, "s" + s, Space.OUTSIDE, stated(tuning, 0.03)));
      }
    }
    PlannedBox plan =
        new PlannedBox(
            "drawn", List.of(sheet), planned, enclosed, vents, List.of(), wiring, 0, Demands.NONE);
    String story =
        String.format(
            java.util.Locale.ROOT,
            "%s %d drivers %d coils (%s, drivers %s) fs %.1f qes %.2f qms %.1f alpha %.2f h %.2f Q"
                + " %.1f coil %.2f n %.2f driftC %.2f",
            kind,
            count,
            coils,
            coilsSeries ? "series" : "parallel",
            driversSeries ? "series" : "parallel",
            fs,
            qes,
            qms,
            alpha,
            h,
            quality,
            coilAt1k / coilOhm,
            n,
            driftC);
    return new Built(plan, box, kind, separate, tuning, story);
  }

  private static Optional<Stated> stated(double value, double spread) {
    return Optional.of(new Stated(value, spread));
  }

  /** Joins the coils of each driver, then the drivers; sets the nodes. */
  public static Circuit wire(NodalBox box, boolean coilsSeries, boolean driversSeries) {
    List<Circuit> parts = new ArrayList<>();
    int free = 2;
    int count = box.drivers.size();
    int top = 1;
    for (int i = 0; i < count; i++) {
      int bottom = driversSeries && i < count - 1 ? free++ : 0;
      List<NodalBox.Coil> coils = box.drivers.get(i).coils;
      List<Circuit> leaves = new ArrayList<>();
      int from = top;
      for (int k = 0; k < coils.size(); k++) {
        leaves.add(Circuit.coil("d" + (i + 1), k + 1));
        coils.get(k).from = from;
        coils.get(k).to = coilsSeries && k < coils.size() - 1 ? free++ : bottom;
        from = coilsSeries ? coils.get(k).to : top;
      }
      parts.add(join(leaves, coilsSeries));
      top = driversSeries ? bottom : 1;
    }
    box.nodes = free;
    return join(parts, driversSeries);
  }

  private static Circuit join(List<Circuit> parts, boolean series) {
    if (parts.size() == 1) {
      return parts.get(0);
    }
    return series ? new Circuit.Series(parts) : new Circuit.Parallel(parts);
  }
}
