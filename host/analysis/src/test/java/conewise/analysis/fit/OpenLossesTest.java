package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.parameter.SecondSweeps;
import conewise.analysis.parameter.SecondSweeps.Advice;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * Losses that one sweep of a vented box leaves open, by name, and what closing its vent settles.
 */
class OpenLossesTest {
  @Test
  void closingTheVentNarrowsEveryLossAndAllAreFound() {
    Space main = new Space("main", SweptTruth.VOLUME);
    BoxFit one = SweptTruth.fit(SweptTruth.ofBox(), SweptTruth.swept(true, main));
    BoxFit both =
        SweptTruth.fit(
            SweptTruth.ofBox(), SweptTruth.swept(true, main), SweptTruth.swept(false, main));
    for (int k = 0; k < SweptTruth.ofBox().size(); k++) {
      String name = SweptTruth.ofBox().get(k).name();
      assertTrue(both.deviation(k) < one.deviation(k), "seed " + SweptTruth.SEED + ", " + name);
    }
    SweptTruth.assertTells(both, SweptTruth.FS, "a", Kind.RESONANCE);
    SweptTruth.assertTells(both, SweptTruth.QMS, "a", Kind.MECHANICAL_Q);
    SweptTruth.assertTells(both, SweptTruth.QES, "a", Kind.ELECTRICAL_Q);
    SweptTruth.assertTells(
        both, SweptTruth.vas(SweptTruth.MASS, SweptTruth.FS), "a", Kind.EQUIVALENT_VOLUME);
    SweptTruth.assertTells(both, SweptTruth.RE, "a", Kind.COIL_RESISTANCE);
    SweptTruth.assertTells(both, SweptTruth.LEAK_Q, "leak", Kind.LEAK_Q);
    SweptTruth.assertTells(both, SweptTruth.TUNING, "vent", Kind.TUNING);
    SweptTruth.assertTells(both, SweptTruth.VENT_Q, "vent", Kind.VENT_Q);
  }

  /** A lined box, which the node equations do not have: its curves are the model's own. */
  private static Sweep lined(boolean vented) {
    return lined(vented, SweptTruth.NOISE);
  }

  private static Sweep lined(boolean vented, double noise) {
    BoxModel box =
        SweptTruth.plan(vented, new Space("main", SweptTruth.VOLUME).lined(SweptTruth.LINING_Q));
    Network network = Network.of(box);
    Random random = new Random(SweptTruth.SEED + (vented ? 6 : 7));
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f : NodalBox.logarithmic(9.5, 400, 150)) {
      Complex z = network.impedance(f);
      double sigma = noise * z.abs();
      points.add(
          new ImpedancePoint(
              f,
              z.getReal() + sigma * random.nextGaussian(),
              z.getImaginary() + sigma * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(sigma))));
    }
    return new Sweep(box, new ImpedanceCurve(points));
  }

  /** Leak, lining and vent of one open sweep: an exact degeneracy, gone with the vent closed. */
  @Test
  void lossesOfTheBoxAreOneSetUntilTheVentIsClosed() {
    List<Unknown> unknowns =
        SweptTruth.with(SweptTruth.ofBox(), SweptTruth.free("main", Kind.ABSORPTION_Q));
    BoxFit one = SweptTruth.fit(unknowns, lined(true));
    assertEquals(
        List.of(Set.of("leak Q of leak", "absorption Q of main", "vent Q of vent")),
        SweptTruth.open(one));
    assertTrue(SweptTruth.reason(one, "leak", Kind.LEAK_Q).contains("absorption Q of main"));
    assertTrue(SweptTruth.reason(one, "main", Kind.ABSORPTION_Q).contains("vent Q of vent"));
    // The driver's own loss takes up what little the three do not cancel.
    assertTrue(SweptTruth.reason(one, "a", Kind.MECHANICAL_Q).contains("leak Q of leak"));
    BoxFit both = SweptTruth.fit(unknowns, lined(true), lined(false));
    assertEquals(List.of(), both.openSets());
    SweptTruth.assertTells(both, 5, "a", Kind.MECHANICAL_Q);
    SweptTruth.assertTells(both, 15, "leak", Kind.LEAK_Q);
    SweptTruth.assertTells(both, 60, "vent", Kind.VENT_Q);
    SweptTruth.assertTells(both, SweptTruth.LINING_Q, "main", Kind.ABSORPTION_Q);
  }

  /**
   * An unlined box fitted as a lined one: a lining's loss, which it has not, goes with the rest.
   */
  @Test
  void aLossThatTheBoxHasNotIsSaidToGoWithTheOthers() {
    List<Unknown> unknowns =
        SweptTruth.with(SweptTruth.ofBox(), SweptTruth.free("main", Kind.ABSORPTION_Q));
    BoxFit one =
        SweptTruth.fit(
            unknowns, SweptTruth.swept(true, new Space("main", SweptTruth.VOLUME).lined(60)));
    String lining = SweptTruth.reason(one, "main", Kind.ABSORPTION_Q);
    assertTrue(lining.contains("together with leak Q of leak, vent Q of vent"), lining);
    String driver = SweptTruth.reason(one, "a", Kind.MECHANICAL_Q);
    assertTrue(driver.contains("together with absorption Q of main"), driver);
  }

  /** A very noisy sweep: closing the vent then helps, and leaves the losses open all the same. */
  @Test
  void closingTheVentIsAdvisedWhereItOnlyNarrowsWhatIsOpen() {
    List<Unknown> unknowns =
        SweptTruth.with(SweptTruth.ofBox(), SweptTruth.free("main", Kind.ABSORPTION_Q));
    BoxFit one = SweptTruth.fit(unknowns, lined(true, 0.06));
    List<Advice> advice = SecondSweeps.of(one, one.sweeps().get(0).model());
    assertEquals(1, advice.size(), advice.toString());
    assertEquals("close vent tightly", advice.get(0).doThis());
    assertEquals(List.of(), advice.get(0).settles());
    assertEquals(one.openSets(), advice.get(0).narrows());
    BoxFit both = SweptTruth.fit(unknowns, lined(true, 0.06), lined(false, 0.06));
    assertEquals(1, both.openSets().size(), both.openSets().toString());
    for (int k = 0; k < unknowns.size(); k++) {
      String name = unknowns.get(k).name();
      if (one.openSets().get(0).contains(name)) {
        assertTrue(both.deviation(k) < 0.5 * one.deviation(k), name);
      }
    }
  }
}
