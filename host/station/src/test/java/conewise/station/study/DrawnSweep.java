package conewise.station.study;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.plan.PlannedBox;
import conewise.station.lab.SimulatedImpedance;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.BiConsumer;
import org.apache.commons.math3.complex.Complex;

/** Sweeps of drawn boxes, by the impedance of the simulator's equations and noise of 0.2 %. */
public final class DrawnSweep {
  private static final double NOISE = 0.002;
  private static final int POINTS = 110;

  private DrawnSweep() {}

  /** A good box, with the usual spreads of production. */
  public static ImpedanceCurve good(PlannedBox plan, Random random) {
    return of(plan, random, (sheet, p) -> {});
  }

  /** One whose vents are tuned otherwise. */
  public static ImpedanceCurve tuned(PlannedBox plan, double factor, Random random) {
    return of(
        plan, random, (sheet, p) -> sheet.vents.values().forEach(vent -> vent.tuningHz *= factor));
  }

  /** One with a driver wired backwards. */
  public static ImpedanceCurve reversed(PlannedBox plan, String driver, Random random) {
    return of(plan, random, (sheet, p) -> sheet.circuit = sheet.circuit.withReversed(driver));
  }

  /**
   * One whose every space has a lining of a quality where the drivers resonate with it, and seems
   * larger by it.
   */
  static ImpedanceCurve lined(PlannedBox plan, double quality, double gain, Random random) {
    return of(plan, random, (sheet, p) -> line(sheet, p, quality, gain));
  }

  /** Such a one with a driver wired backwards. */
  static ImpedanceCurve linedAndReversed(
      PlannedBox plan, double quality, double gain, String driver, Random random) {
    return of(
        plan,
        random,
        (sheet, p) -> {
          line(sheet, p, quality, gain);
          sheet.circuit = sheet.circuit.withReversed(driver);
        });
  }

  private static void line(BuildSheet sheet, PlannedBox plan, double quality, double gain) {
    plan.spaces()
        .forEach(
            space -> sheet.linings.put(space.name(), new BuildSheet.BuiltLining(quality, gain)));
  }

  private static ImpedanceCurve of(
      PlannedBox plan, Random random, BiConsumer<BuildSheet, PlannedBox> fault) {
    BuildSheet sheet = new BuildSheet(plan, random);
    fault.accept(sheet, plan);
    SimulatedImpedance box = SimulatedImpedance.of(sheet.box());
    List<ImpedancePoint> points = new ArrayList<>();
    points.add(point(0, box.at(1e-3).getReal(), 0, random));
    for (int i = 0; i < POINTS; i++) {
      double hz = 8 * Math.pow(400 / 8.0, i / (POINTS - 1.0));
      Complex z = box.at(hz);
      points.add(point(hz, z.getReal(), z.getImaginary(), random));
    }
    return new ImpedanceCurve(points);
  }

  private static ImpedancePoint point(double hz, double re, double im, Random random) {
    double u = NOISE * Math.hypot(re, im);
    return new ImpedancePoint(
        hz,
        re + u * random.nextGaussian(),
        hz == 0 ? 0 : im + u * random.nextGaussian(),
        Optional.of(ImpedanceUncertainty.circular(u)));
  }
}
