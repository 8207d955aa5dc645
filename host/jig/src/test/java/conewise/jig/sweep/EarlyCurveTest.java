package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.CurveSoFar.Standing;
import conewise.jig.workbench.Knock;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Driver;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** What a running quick sweep shows of its curve. */
class EarlyCurveTest {

  private static final QuickSweep PLAIN =
      new QuickSweep(SweepSettings.standard().withoutSelfCheck());

  /** Keeps each curve that is told, once. */
  private static final class Watcher implements SweepListener {
    private final List<CurveSoFar> told = new ArrayList<>();
    private final Consumer<CurveSoFar> then;
    private final boolean wants;

    Watcher(boolean wants, Consumer<CurveSoFar> then) {
      this.wants = wants;
      this.then = then;
    }

    @Override
    public void progress(double fraction, String what, CurveSoFar soFar) {
      if (told.isEmpty() || !told.get(told.size() - 1).equals(soFar)) {
        told.add(soFar);
        then.accept(soFar);
      }
    }

    @Override
    public boolean wantsEarlyCurve() {
      return wants;
    }

    List<Standing> standings() {
      return told.stream().map(CurveSoFar::standing).distinct().toList();
    }

    List<CurveSoFar> estimates() {
      return told.stream().filter(each -> each.standing() == Standing.ESTIMATED).toList();
    }
  }

  private static Watcher watcher() {
    return new Watcher(true, curve -> {});
  }

  private static SweepResult sweep(Workbench bench, SweepListener listener) throws Exception {
    try (JigClient client = bench.connect()) {
      return assertInstanceOf(SweepResult.class, PLAIN.run(client, listener));
    }
  }

  private static Workbench driver(double fsHz, double qms, double qes, double ohm) {
    return Workbench.of(
            Box.freeAir(Driver.ofParameters(Air.ROOM, fsHz, qms, qes, 100, 0.033, ohm, 1)))
        .with(JigImperfections.nominal());
  }

  private static Workbench drawn(Random random) {
    return driver(
            12 + 60 * random.nextDouble(),
            2 + 18 * random.nextDouble(),
            0.3 + 1.7 * random.nextDouble(),
            2 + 10 * random.nextDouble())
        .with(JigImperfections.typical(random.nextLong()))
        .withSeed(random.nextLong());
  }

  @Test
  void nothingThenEstimatesEachEighthOfAPeriodThenTheMeasuredCurve() throws Exception {
    Watcher watcher = watcher();
    SweepResult result = sweep(driver(30, 5, 0.5, 6), watcher);
    assertEquals(
        List.of(Standing.NOTHING, Standing.ESTIMATED, Standing.MEASURED), watcher.standings());
    assertEquals(8, watcher.estimates().size());
    assertEquals(10, watcher.told.size());
    CurveSoFar last = watcher.told.get(9);
    ImpedanceCurve whole = QuickSweepTest.curve(result);
    assertEquals(whole.points(), last.points());
    assertEquals(whole.scaleUncertainty(), watcher.estimates().get(0).scaleUncertainty());
  }

  /**
   * 95 % of the points of each estimate within the radius that holds 95 % of two equal and
   * independent normal parts (5.991, chi-square), of their own uncertainty alone: the scale's is
   * common to both curves.
   */
  @Test
  void eachEstimateAgreesWithTheMeasuredCurveWithinItsOwnInterval() throws Exception {
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    double widest = 0;
    for (int box = 0; box < 12; box++) {
      Watcher watcher = watcher();
      List<ImpedancePoint> whole = QuickSweepTest.curve(sweep(drawn(random), watcher)).points();
      assertEquals(8, watcher.estimates().size());
      for (CurveSoFar estimate : watcher.estimates()) {
        double share = agreeing(estimate.points(), whole);
        assertTrue(share >= 0.95, share + " in box " + box + ", seed " + seed);
        widest = Math.max(widest, 1 - share);
      }
    }
    System.out.printf(Locale.ROOT, "outside their interval: %.3f at most, seed %d%n", widest, seed);
  }

  private static double agreeing(List<ImpedancePoint> estimate, List<ImpedancePoint> whole) {
    TreeMap<Double, ImpedancePoint> measured = new TreeMap<>();
    whole.forEach(point -> measured.put(point.frequencyHz(), point));
    long inside =
        estimate.stream()
            .filter(
                point -> {
                  double hz = point.frequencyHz();
                  ImpedancePoint nearest = measured.ceilingEntry(hz - 1e-6).getValue();
                  assertEquals(hz, nearest.frequencyHz(), 1e-6);
                  double away =
                      Math.hypot(
                          point.resistanceOhm() - nearest.resistanceOhm(),
                          point.reactanceOhm() - nearest.reactanceOhm());
                  double u = point.standardUncertaintyOhm().orElseThrow();
                  return away <= Math.sqrt(5.991) * u;
                })
            .count();
    return (double) inside / estimate.size();
  }

  /** It rings at 13 Hz with a Q of about 20: 1/e after half a second (Q/(pi f)). */
  @Test
  void aBoxThatRingsOnHasAShadeThatNarrowsWhereItRingsAndAgreesAllTheSame() throws Exception {
    Watcher watcher = watcher();
    Workbench ringing = driver(13, 40, 20, 10).with(JigImperfections.ideal());
    List<ImpedancePoint> whole = QuickSweepTest.curve(sweep(ringing, watcher)).points();
    CurveSoFar first = watcher.estimates().get(0);
    CurveSoFar last = watcher.estimates().get(7);
    assertTrue(widestNear(13, first) > 1.5 * widestNear(13, last), first + " then " + last);
    assertTrue(widestNear(90, first) < 1.2 * widestNear(90, last), first + " then " + last);
    assertTrue(agreeing(first.points(), whole) >= 0.95, first + " then " + whole);
  }

  /** In ohm, within 2 Hz. */
  private static double widestNear(double hz, CurveSoFar curve) {
    return curve.points().stream()
        .filter(point -> Math.abs(point.frequencyHz() - hz) < 2)
        .mapToDouble(point -> point.standardUncertaintyOhm().orElseThrow())
        .max()
        .orElseThrow();
  }

  @Test
  void theResultAndItsTimeAreTheSameWhetherOrNotAnybodyWatches() throws Exception {
    Watcher unwanted = new Watcher(false, curve -> {});
    SweepResult alone = sweep(driver(30, 5, 0.5, 6), unwanted);
    SweepResult watched = sweep(driver(30, 5, 0.5, 6), watcher());
    assertEquals(List.of(Standing.NOTHING, Standing.MEASURED), unwanted.standings());
    assertEquals(alone.measurement(), watched.measurement());
    assertEquals(alone.jigSeconds(), watched.jigSeconds());
    assertEquals(0, watched.health().damagedLines());
  }

  @Test
  void aRecordThatIsTakenAgainBeginsWithNothing() throws Exception {
    // As in BenchTroubleTest: 20 ms in the second period, after some estimates.
    Knock world =
        new Knock(
            new VirtualAnalog(
                Workbench.resistor(6.8).box(), JigImperfections.nominal(), /* seed= */ 1),
            30_000,
            30_312,
            60);
    Watcher watcher = watcher();
    MemoryLink link = new MemoryLink(new VirtualJig(world, JigSetup.standard()));
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      PLAIN.run(client, watcher);
    }
    List<Standing> changes = new ArrayList<>();
    for (CurveSoFar each : watcher.told) {
      if (changes.isEmpty() || changes.get(changes.size() - 1) != each.standing()) {
        changes.add(each.standing());
      }
    }
    assertEquals(
        List.of(
            Standing.NOTHING,
            Standing.ESTIMATED,
            Standing.NOTHING,
            Standing.ESTIMATED,
            Standing.MEASURED),
        changes);
    assertEquals(16, watcher.estimates().size());
  }

  @Test
  void aRecordThatClipsShowsNoCurve() throws Exception {
    var more = new JigImperfections.Amplifier(1.6, 0, 1500);
    Watcher watcher = watcher();
    SweepResult result =
        sweep(
            Workbench.resistor(4).with(JigImperfections.nominal().withAmplifiers(more, more)),
            watcher);
    assertTrue(result.level() < 400, "it was to clip first; level " + result.level());
    // Of the last record alone, which does not clip.
    assertEquals(8, watcher.estimates().size());
  }

  @Test
  void openTerminalsLeaveNothingToSee() throws Exception {
    Watcher watcher = watcher();
    SweepResult result = sweep(Workbench.open().with(JigImperfections.nominal()), watcher);
    assertTrue(result.measurement().curve() instanceof Outcome.NoResult<ImpedanceCurve>);
    assertEquals(
        Standing.NOTHING, watcher.told.get(watcher.told.size() - 1).standing(), watcher::toString);
  }

  @Test
  void aSweepThatIsCutHasNoCurveWhateverItShowed() throws Exception {
    MemoryLink link = driver(30, 5, 0.5, 6).link();
    Watcher watcher =
        new Watcher(
            true,
            curve -> {
              if (curve.standing() == Standing.ESTIMATED) {
                link.unplug();
              }
            });
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      Interrupted cut = assertInstanceOf(Interrupted.class, PLAIN.run(client, watcher));
      assertEquals(List.of(), cut.state().captures());
      assertEquals(List.of(), cut.state().readings());
    }
    assertEquals(List.of(Standing.NOTHING, Standing.ESTIMATED), watcher.standings());
  }
}
