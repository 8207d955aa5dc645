package conewise.jig.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.bench.BenchFinding.Kind;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigListener;
import conewise.jig.workbench.Knock;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.Contact;
import conewise.simulator.analog.Hum;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.simulator.jig.JigSetup;
import conewise.simulator.jig.VirtualJig;
import conewise.simulator.link.MemoryLink;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What is wrong with the bench is named, and no number comes out of a bench that is wrong. */
class BenchTroubleTest {

  private static SweepResult sweep(Workbench bench) throws Exception {
    try (JigClient client = bench.connect()) {
      return assertInstanceOf(
          SweepResult.class,
          new QuickSweep(SweepSettings.standard()).run(client, SweepListener.NONE));
    }
  }

  private static void assertSpoiltBy(Kind kind, SweepResult result) {
    List<BenchFinding> findings = result.measurement().findings();
    assertTrue(findings.stream().anyMatch(f -> f.kind() == kind && f.spoils()), findings::toString);
    assertTrue(findings.get(0).spoils(), () -> "the worst must stand first: " + findings);
  }

  private static Workbench nominal(double ohm) {
    return Workbench.resistor(ohm).with(JigImperfections.nominal());
  }

  @Test
  void openTerminalsAreNamed() throws Exception {
    SweepResult result = sweep(Workbench.open().with(JigImperfections.nominal()));
    assertSpoiltBy(Kind.OPEN_TERMINALS, result);
    String sentence = result.measurement().findings().get(0).sentence();
    assertTrue(sentence.startsWith("Hardly any steady current"), sentence);
    assertFalse(result.measurement().curve() instanceof Outcome.Found<ImpedanceCurve>);
  }

  /** 22 and 470 microfarad, as in front of a box that must not see the lowest tones. */
  @Test
  void aCapacitorInSeriesIsNamedAndNotTakenForOpenTerminals() throws Exception {
    for (double farad : new double[] {22e-6, 470e-6}) {
      Box box =
          Box.load(
              new Wiring.Series(
                  List.of(new Wiring.Resistance(6), new Wiring.Capacitor(farad, 0.05))));
      SweepResult result = sweep(Workbench.of(box).with(JigImperfections.nominal()));
      assertSpoiltBy(Kind.OPEN_TERMINALS, result);
      String sentence = result.measurement().findings().get(0).sentence();
      assertTrue(sentence.startsWith("A capacitor is in series"), farad + " F: " + sentence);
    }
  }

  @Test
  void shortedTerminalsAreNamed() throws Exception {
    assertSpoiltBy(
        Kind.SHORTED_TERMINALS, sweep(Workbench.shorted().with(JigImperfections.nominal())));
  }

  @Test
  void aBatteryOrAnAmplifierOnTheTerminalsIsNamedAndNotDrivenAgainst() throws Exception {
    for (Wiring foreign :
        List.of(
            new Wiring.ForeignVoltage(0.1, 0.5, 0, 50),
            new Wiring.ForeignVoltage(0.1, 0, 0.3, 83))) {
      Box box = Box.load(new Wiring.Parallel(List.of(new Wiring.Resistance(6), foreign)));
      SweepResult result = sweep(Workbench.of(box).with(JigImperfections.nominal()));
      assertSpoiltBy(Kind.FOREIGN_VOLTAGE, result);
      assertTrue(result.captures().isEmpty());
    }
  }

  @Test
  void theDcResistanceLiesWithinItsStatedUncertainty() throws Exception {
    for (double ohm : new double[] {1.5, 3.4, 6.8, 13}) {
      SelfCheckReport report = sweep(nominal(ohm)).selfCheck().orElseThrow();
      assertTrue(
          report.dcResistance() instanceof Outcome.Found<ImpedancePoint>,
          () -> report.dcResistance().toString());
      ImpedancePoint dc = ((Outcome.Found<ImpedancePoint>) report.dcResistance()).value();
      double u = dc.uncertainty().orElseThrow().varianceResistance();
      // 50 milliohm of clips are part of what stands between the terminals.
      assertEquals(ohm + 0.05, dc.resistanceOhm(), 3 * Math.sqrt(u), ohm + " ohm");
      assertTrue(Math.sqrt(u) < 0.02 * ohm, ohm + " ohm: " + Math.sqrt(u));
    }
  }

  @Test
  void theLevelIsChosenSoThatNothingClips() throws Exception {
    // Amplifiers of twice the gain: the full level would pass the current channel's range.
    var twice = new JigImperfections.Amplifier(2, 0, 1500);
    Workbench bench =
        Workbench.resistor(4).with(JigImperfections.nominal().withAmplifiers(twice, twice));
    SweepResult result = sweep(bench);
    assertTrue(result.level() < 500, "level " + result.level());
    assertTrue(
        result.measurement().findings().stream().noneMatch(BenchFinding::spoils),
        () -> result.measurement().findings().toString());
    assertEquals(0, result.captures().get(0).currentAmpere().saturatedCount());
  }

  @Test
  void withoutALookAtTheBenchAClippedRecordIsTakenAgainAtALowerLevel() throws Exception {
    var more = new JigImperfections.Amplifier(1.6, 0, 1500);
    Workbench bench =
        Workbench.resistor(4).with(JigImperfections.nominal().withAmplifiers(more, more));
    try (JigClient client = bench.connect()) {
      SweepResult result =
          assertInstanceOf(
              SweepResult.class,
              new QuickSweep(SweepSettings.standard().withoutSelfCheck())
                  .run(client, SweepListener.NONE));
      assertTrue(result.level() < 400, "level " + result.level());
      assertEquals(0, result.captures().get(0).currentAmpere().saturatedCount());
    }
  }

  @Test
  void aKnockMakesTheRecordBeTakenAgain() throws Exception {
    // The measured period begins about 20 000 ticks after the start; the knock lasts 20 ms in it.
    Knock world =
        new Knock(
            new VirtualAnalog(nominal(6.8).box(), JigImperfections.nominal(), 1),
            26_000,
            26_312,
            60);
    MemoryLink link = new MemoryLink(new VirtualJig(world, JigSetup.standard()));
    try (JigClient client = JigClient.connect(link, JigListener.NONE)) {
      SweepResult result =
          assertInstanceOf(
              SweepResult.class,
              new QuickSweep(SweepSettings.standard().withoutSelfCheck())
                  .run(client, SweepListener.NONE));
      assertTrue(result.jigSeconds() > 4, "one sweep is 2.2 s: " + result.jigSeconds());
      assertTrue(
          result.measurement().findings().stream().noneMatch(BenchFinding::spoils),
          () -> result.measurement().findings().toString());
      for (ImpedancePoint point : QuickSweepTest.curve(result).points()) {
        assertEquals(6.85, point.modulusOhm(), 0.03, point.frequencyHz() + " Hz");
      }
    }
  }

  @Test
  void humIsFittedAlongAndDoesNotLeakIntoTheLines() throws Exception {
    // 4 mV into the leads, 3 % of what the comb puts on the terminals: a cable beside mains.
    Workbench bench =
        Workbench.resistor(6.8).with(JigImperfections.nominal().with(new Hum(50, 0.004, 0)));
    SweepResult result = sweep(bench);
    assertTrue(
        result.measurement().findings().stream().noneMatch(BenchFinding::spoils),
        () -> result.measurement().findings().toString());
    for (ImpedancePoint point : QuickSweepTest.curve(result).points()) {
      assertEquals(6.85, point.modulusOhm(), 0.05, point.frequencyHz() + " Hz");
    }
  }

  @Test
  void aLooseClipNeverGivesACurveThatIsCalledGood() throws Exception {
    for (long seed = 1; seed <= 8; seed++) {
      Workbench bench =
          Workbench.resistor(6.8)
              .with(JigImperfections.nominal().with(new Contact(0.05, 3, 5)))
              .withSeed(seed);
      SweepResult result = sweep(bench);
      List<BenchFinding> findings = result.measurement().findings();
      assertTrue(
          findings.stream().anyMatch(BenchFinding::spoils), "seed " + seed + ": " + findings);
    }
  }

  @Test
  void withoutACalibrationItIsSaidAndTheUncertaintyHoldsTheScale() throws Exception {
    SweepResult result = sweep(nominal(6.8));
    assertTrue(
        result.measurement().findings().stream()
            .anyMatch(f -> f.kind() == Kind.CALIBRATION && !f.spoils()));
    // Two gains of 5 % and a resistor of 1 %, each limit taken as rectangular (JCGM 100, 4.3.7):
    // the root of 2 x 0.05^2 / 3 + 0.01^2 / 3.
    assertEquals(0.0412, QuickSweepTest.curve(result).scaleUncertainty(), 0.0005);
  }
}
