package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.nodal.NodalBox;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What one sweep leaves open by name, and a second one settles: volume, mass. */
class TwoSweepsTest {
  /** Only Vas / Vb shows (Small, J. Audio Eng. Soc. 20, 1972), whether the vent is open or not. */
  @Test
  void compliancesOfDriverAndAirAreOneSetOfWhichTheRatioIsTold() {
    Space main = new Space("main", SweptTruth.VOLUME);
    List<Unknown> unknowns =
        SweptTruth.with(SweptTruth.ofBox(), SweptTruth.free("main", Kind.VOLUME));
    for (Sweep[] sweeps :
        List.of(
            new Sweep[] {SweptTruth.swept(true, main)},
            new Sweep[] {SweptTruth.swept(true, main), SweptTruth.swept(false, main)})) {
      BoxFit fit = SweptTruth.fit(unknowns, sweeps);
      assertEquals(
          List.of(Set.of("volume of main", "equivalent volume of a")), SweptTruth.open(fit));
      String vas = SweptTruth.reason(fit, "a", Kind.EQUIVALENT_VOLUME);
      assertTrue(vas.contains("together with volume of main"), vas);
      String volume = SweptTruth.reason(fit, "main", Kind.VOLUME);
      assertTrue(volume.contains("together with equivalent volume of a"), volume);
      Quantity part = new Quantity("a", Kind.EQUIVALENT_VOLUME);
      Quantity whole = new Quantity("main", Kind.VOLUME);
      Estimate ratio = SweptTruth.told(fit, "the compliance ratio", v -> v.of(part) / v.of(whole));
      double truth = SweptTruth.vas(SweptTruth.MASS, SweptTruth.FS) / SweptTruth.VOLUME;
      assertEquals(truth, ratio.value(), 0.005 * truth, "seed " + SweptTruth.SEED);
    }
  }

  private static Sweep freeAir(double addedKg) {
    NodalBox.Driver heavy = SweptTruth.driver(SweptTruth.MASS, SweptTruth.FS);
    heavy.mass += addedKg;
    Driver stated = SweptTruth.stated(1.06).withAddedMass(addedKg);
    int draw = addedKg > 0 ? 3 : 2;
    return new Sweep(
        BoxModel.freeAir(stated),
        SweptTruth.curve(SweptTruth.box(SweptTruth.NO_BOX, false, heavy), draw));
  }

  /** Mms = (area / (2 pi fs))^2 rho c^2 / Vas, of the definitions of fs and Vas (Small, 1972). */
  private static double movingMass(Values v, double areaM2) {
    double fs = v.of(new Quantity("driver", Kind.RESONANCE));
    double vas = v.of(new Quantity("driver", Kind.EQUIVALENT_VOLUME));
    return Math.pow(areaM2 / (2 * Math.PI * fs), 2) * SweptTruth.BULK / vas;
  }

  @Test
  void aKnownMassOnTheConeGivesTheMovingMass() {
    List<Unknown> unknowns = SweptTruth.ofDriver("driver");
    BoxFit bare = SweptTruth.fit(unknowns, freeAir(0));
    assertEquals(List.of(Set.of("equivalent volume of driver")), SweptTruth.open(bare));
    assertFalse(SweptTruth.reason(bare, "driver", Kind.EQUIVALENT_VOLUME).isBlank());
    assertTrue(
        bare.estimate("Mms", v -> movingMass(v, SweptTruth.AREA)) instanceof NoResult<Estimate>);
    BoxFit both = SweptTruth.fit(unknowns, freeAir(0), freeAir(SweptTruth.ADDED));
    assertEquals(List.of(), both.openSets());
    Estimate mass = SweptTruth.told(both, "Mms", v -> movingMass(v, SweptTruth.AREA));
    assertEquals(SweptTruth.MASS, mass.value(), 0.005 * SweptTruth.MASS, "seed " + SweptTruth.SEED);
    assertTrue(mass.relativeWidth() < 0.01, "seed " + SweptTruth.SEED + ": " + mass);
  }

  /** Without a box, area squared goes with Vas; the mass does not hang on either alone. */
  @Test
  void withTheAreaUnknownTheMovingMassIsStillTold() {
    List<Unknown> unknowns =
        SweptTruth.with(SweptTruth.ofDriver("driver"), SweptTruth.free("driver", Kind.AREA));
    BoxFit both = SweptTruth.fit(unknowns, freeAir(0), freeAir(SweptTruth.ADDED));
    assertEquals(
        List.of(Set.of("equivalent volume of driver", "area of driver")), SweptTruth.open(both));
    String because = SweptTruth.reason(both, "driver", Kind.AREA);
    assertTrue(because.contains("together with equivalent volume of driver"), because);
    Quantity area = new Quantity("driver", Kind.AREA);
    Estimate mass = SweptTruth.told(both, "Mms", v -> movingMass(v, v.of(area)));
    assertEquals(SweptTruth.MASS, mass.value(), 0.005 * SweptTruth.MASS, "seed " + SweptTruth.SEED);
  }
}
