package conewise.analysis.diagnosis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Network;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** What a person hears and feels of a box, against common practice and the sum of sources. */
class HeardAndFeltTest {

  private static PlannedBox plan(int drivers, boolean apart, boolean vented) {
    DriverKind kind =
        new DriverKind(
            "ten inch",
            List.of(new Stated(4, 0.05)),
            Optional.of(new Stated(32, 0.1)),
            Optional.of(new Stated(7, 0.3)),
            Optional.of(new Stated(0.5, 0.15)),
            Optional.of(new Stated(0.03, 0.15)),
            Optional.empty(),
            Optional.empty());
    List<PlacedDriver> placed = new ArrayList<>();
    List<PlannedSpace> spaces = new ArrayList<>();
    List<PlannedVent> vents = new ArrayList<>();
    for (int i = 1; i <= drivers; i++) {
      String space = apart ? "s" + i : "s1";
      placed.add(new PlacedDriver("d" + i, "ten inch", space, Space.OUTSIDE));
      if (spaces.stream().noneMatch(each -> each.name().equals(space))) {
        double volume = apart ? 0.03 : 0.03 * drivers;
        spaces.add(new PlannedSpace(space, Optional.of(new Stated(volume, 0.03)), false));
        if (vented) {
          vents.add(
              new PlannedVent(
                  "v" + space, space, Space.OUTSIDE, Optional.of(new Stated(34, 0.03))));
        }
      }
    }
    Circuit[] coils =
        IntStream.rangeClosed(1, drivers)
            .mapToObj(i -> Circuit.coil("d" + i, 1))
            .toArray(Circuit[]::new);
    return new PlannedBox(
        "a plan",
        List.of(kind),
        placed,
        spaces,
        vents,
        List.of(),
        drivers == 1 ? coils[0] : Circuit.parallel(coils),
        0,
        Demands.NONE);
  }

  private static Candidate good(PlannedBox plan) {
    return new Candidate(plan.model(), plan.unknowns());
  }

  private static Candidate with(PlannedBox plan, String fault) {
    return Diagnosis.usualFaults(plan, Rates.USUAL).stream()
        .filter(each -> each.id().equals(fault))
        .findFirst()
        .orElseThrow()
        .change()
        .apply(good(plan));
  }

  private static double felt(PlannedBox plan, Candidate box, Wind wind) {
    return Observation.PortWind.of(plan, "vs1", wind).likelihood(box);
  }

  private static double heard(PlannedBox plan, Candidate box, Loudness loudness) {
    return Observation.LevelWithLeadsSwapped.of(plan, "d1", loudness).likelihood(box);
  }

  @Test
  void windIsStrongAtAGoodBoxAndGoneWithAReversedDriverOrABlockedVent() {
    PlannedBox plan = plan(2, false, true);
    assertTrue(felt(plan, good(plan), Wind.STRONG) > 0.9);
    assertTrue(felt(plan, with(plan, "driver-reversed:d2"), Wind.NONE) > 0.9);
    assertTrue(felt(plan, with(plan, "vent-closed:vs1"), Wind.NONE) > 0.9);
    assertTrue(felt(plan, with(plan, "driver-reversed:d2"), Wind.STRONG) > 0.001, "mistakes");
  }

  @Test
  void twoOfFourReversedLeaveNoWindAndOneOfFourSome() {
    PlannedBox plan = plan(4, false, true);
    Candidate one = with(plan, "driver-reversed:d1");
    Candidate two = one.wired(circuit -> circuit.withReversed("d2"));
    assertTrue(felt(plan, two, Wind.NONE) > 0.9);
    assertTrue(felt(plan, one, Wind.NONE) < 0.1);
  }

  @Test
  void swappingTheLeadsOfAGoodPairIsQuieterOfAReversedOneLouderOfALoneDriverTheSame() {
    PlannedBox plan = plan(2, false, true);
    assertTrue(heard(plan, good(plan), Loudness.QUIETER) > 0.95);
    assertTrue(heard(plan, with(plan, "driver-reversed:d1"), Loudness.LOUDER) > 0.95);
    assertTrue(heard(plan, with(plan, "driver-reversed:d2"), Loudness.LOUDER) > 0.95);
    PlannedBox lone = plan(1, false, true);
    assertTrue(heard(lone, good(lone), Loudness.SAME) > 0.7);
    assertTrue(heard(lone, with(lone, "driver-reversed:d1"), Loudness.SAME) > 0.7);
  }

  @Test
  void whatWasSeenIsOneOfThreeForCertain() {
    PlannedBox plan = plan(2, false, true);
    for (Candidate box : List.of(good(plan), with(plan, "driver-reversed:d1"))) {
      double wind = Arrays.stream(Wind.values()).mapToDouble(each -> felt(plan, box, each)).sum();
      double loud =
          Arrays.stream(Loudness.values()).mapToDouble(each -> heard(plan, box, each)).sum();
      assertEquals(1, wind, 1e-12);
      assertEquals(1, loud, 1e-12);
    }
  }

  /** One of four like sources turned round leaves 2 of 4: 20 log10(1/2), -6.02 dB. */
  @Test
  void theLevelIsThatOfTheSumOfLikeSources() {
    PlannedBox plan = plan(4, true, false);
    TestTones tones = TestTones.of(plan.model());
    assertEquals(20 * Math.log10(0.5), tones.changeDecibel("d1", 70), 0.06);
    assertEquals(6.02, with(plan, "driver-reversed:d1").tones().changeDecibel("d1", 70), 0.06);
  }

  @Test
  void theToneOfTheLevelLiesAboveTheTuningAndTakesMostOfTheSoundAway() {
    PlannedBox plan = plan(2, false, true);
    TestTones tones = TestTones.of(plan.model());
    TestTones.SwapTone tone = tones.swap("d1");
    assertEquals(34, tone.tuningHz(), 1e-9);
    assertTrue(tone.frequencyHz() >= 1.3 * 34 - 1e-9 && tone.frequencyHz() <= 2 * 34 + 1e-9);
    assertTrue(tone.dropDecibel() > 20, tone.toString());
    for (double hz = 1.3 * 34; hz < 2 * 34; hz += 2) {
      assertTrue(-tones.changeDecibel("d1", hz) <= tone.dropDecibel() + 1 + 1e-9, hz + " Hz");
    }
    // Small, 1972: fc = fs sqrt(1 + Vas/V), each driver with 30 L for itself.
    PlannedBox sealed = plan(2, true, false);
    assertEquals(32 * Math.sqrt(2), TestTones.of(sealed.model()).swap("d1").tuningHz(), 1e-6);
  }

  private static Diagnosis diagnosis(PlannedBox plan) {
    return ((Found<Diagnosis>) Diagnosis.of(plan, List.of(SweptState.asBuilt(curve(plan)))))
        .value();
  }

  private static Verdict judge(PlannedBox plan, Observation... seen) {
    BoxJudge.Evidence more = new BoxJudge.Evidence(List.of(), List.of(seen));
    return new BoxJudge().judge(plan, Measurement.of(curve(plan)), more);
  }

  /** Of a good box, without noise. */
  private static ImpedanceCurve curve(PlannedBox plan) {
    Network sound = Network.of(plan.model());
    List<ImpedancePoint> points = new ArrayList<>();
    for (double hz : NodalBox.logarithmic(10, 400, 120)) {
      Complex z = sound.impedance(hz);
      points.add(new ImpedancePoint(hz, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }

  /** The terminals cannot show it where each driver has a space of its own; the ear can. */
  @Test
  void theLevelSettlesThePolarityOfDriversInSpacesOfTheirOwn() {
    PlannedBox plan = plan(2, true, false);
    assertEquals(Decision.UNDECIDED, judge(plan).decision());
    Verdict quieter =
        judge(plan, Observation.LevelWithLeadsSwapped.of(plan, "d1", Loudness.QUIETER));
    assertEquals(Decision.PASS, quieter.decision(), quieter.headline());
    assertTrue(
        quieter.notShown().stream().anyMatch(each -> each.startsWith("Absolute polarity")),
        "all reversed sound alike");
    Observation one = Observation.LevelWithLeadsSwapped.of(plan, "d1", Loudness.LOUDER);
    Observation other = Observation.LevelWithLeadsSwapped.of(plan, "d2", Loudness.LOUDER);
    assertEquals(Decision.UNDECIDED, judge(plan, one).decision(), "an ear errs now and then");
    Verdict louder = judge(plan, one, other);
    assertEquals(Decision.FAIL, louder.decision(), louder.headline());
    assertTrue(louder.headline().contains("is wired backwards"), louder.headline());
  }

  @Test
  void theLevelIsOfferedWhereTheTerminalsLeaveThePolarityOpen() {
    PlannedBox plan = plan(2, true, false);
    Diagnosis diagnosis = diagnosis(plan);
    assertTrue(
        NextTests.of(plan, diagnosis).all().stream()
            .anyMatch(test -> test.instruction().contains("--level-swapped d1=")));
  }
}
