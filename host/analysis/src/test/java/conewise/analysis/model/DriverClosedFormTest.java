package conewise.analysis.model;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.analysis.model.CurveReading.Resonance;
import conewise.analysis.model.Opening.Mounted;
import java.util.List;
import java.util.Random;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * A driver alone and in a closed box against the closed forms of R. H. Small (J. Audio Eng. Soc.
 * 20, 1972: direct radiators, closed-box systems) and the test methods that follow from them; all
 * from memory.
 */
class DriverClosedFormTest {
  /** An example whose fs, Qs, Vas and flanks were worked out by hand: density 1.2, sound 343. */
  private static final PhysicalDriver EXAMPLE =
      new PhysicalDriver(0.044459, 1.18e-3, 1.85, Math.PI * 0.12 * 0.12, 1, 7, 11.4);

  private static final Air EXAMPLE_AIR = new Air(1.2, 343);

  private static BoxModel sealed(Driver driver, Air air, double volumeM3) {
    return new BoxModel(
        air,
        List.of(new Space("main", volumeM3)),
        List.of(new Mounted("driver", driver, "main", Space.OUTSIDE)),
        Circuit.coil("driver", 1));
  }

  private static Driver drawn(Random random) {
    return Driver.of(
        DrawnModels.between(random, 15, 120),
        DrawnModels.between(random, 1, 15),
        DrawnModels.between(random, 0.15, 1.5),
        DrawnModels.between(random, 0.003, 0.4),
        1,
        DrawnModels.between(random, 1, 16));
  }

  private static void assertClose(double expected, double actual, double relative, String where) {
    assertEquals(expected, actual, relative * Math.abs(expected), where);
  }

  private static void assertClose(Complex expected, Complex actual, double relative, String where) {
    assertEquals(0, actual.subtract(expected).abs() / expected.abs(), relative, where);
  }

  @Test
  void workedExampleHasItsResonanceQualitiesAndFlanks() {
    Driver driver = EXAMPLE.parameters(1.2, 343);
    assertEquals(340.94, 1000 * driver.equivalentVolumeM3(), 0.01);
    Resonance read = CurveReading.resonance(Network.of(BoxModel.freeAir(driver)), 7, 5, 100);
    assertEquals(21.974, read.peakHz(), 0.0005);
    assertEquals(0.33062, read.electricalQ(), 0.000005);
    assertEquals(3.3179, read.mechanicalQ(), 0.00005);
    assertEquals(0.30066, read.totalQ(), 0.000005);
    assertEquals(13.573, read.lowerHz(), 0.0005);
    assertEquals(35.573, read.upperHz(), 0.0005);
  }

  @Test
  void readingsOfAnyFreeDriverReturnItsParameters() {
    long seed = 101;
    Random random = new Random(seed);
    for (int i = 0; i < 300; i++) {
      Driver driver = drawn(random);
      String where = "seed " + seed + ", driver " + i;
      double fs = driver.resonanceHz();
      Resonance read =
          CurveReading.resonance(
              Network.of(BoxModel.freeAir(driver)), driver.meanCoilOhm(), fs / 3, 3 * fs);
      assertClose(fs, read.peakHz(), 1e-10, where);
      assertClose(fs * fs, read.lowerHz() * read.upperHz(), 1e-9, where);
      assertClose(driver.mechanicalQ(), read.mechanicalQ(), 1e-9, where);
      assertClose(driver.electricalQ(), read.electricalQ(), 1e-9, where);
      assertClose(driver.totalQ(), read.totalQ(), 1e-9, where);
    }
  }

  @Test
  void wholeCurveIsTheResistanceAndTheForceFactorSquaredOverTheMechanicalImpedance() {
    double volume = 0.055;
    double stiffness = 1.2 * 343 * 343 * EXAMPLE.areaM2() * EXAMPLE.areaM2() / volume;
    Driver driver = EXAMPLE.parameters(1.2, 343);
    Network free = Network.of(BoxModel.freeAir(driver));
    Network closed = Network.of(sealed(driver, EXAMPLE_AIR, volume));
    for (double f = 0.1; f < 20_000; f *= 1.1) {
      assertClose(EXAMPLE.oneCoil(f, Complex.ZERO), free.impedance(f), 1e-12, "free " + f);
      Complex spring = new Complex(0, -stiffness / (2 * Math.PI * f));
      assertClose(EXAMPLE.oneCoil(f, spring), closed.impedance(f), 1e-12, "closed " + f);
    }
  }

  /** fc/fs = Qtc/Qts = sqrt(1 + Vas/Vb). */
  @Test
  void closedBoxRaisesResonanceAndTotalQualityByTheRootOfOnePlusTheComplianceRatio() {
    long seed = 102;
    Random random = new Random(seed);
    for (int i = 0; i < 100; i++) {
      Driver driver = drawn(random);
      double ratio = DrawnModels.between(random, 0.1, 8);
      Network box =
          Network.of(sealed(driver, Air.AT_20_CELSIUS, driver.equivalentVolumeM3() / ratio));
      double rise = Math.sqrt(1 + ratio);
      double fc = rise * driver.resonanceHz();
      Resonance read = CurveReading.resonance(box, driver.meanCoilOhm(), fc / 3, 3 * fc);
      String where = "seed " + seed + ", driver " + i;
      assertClose(rise, read.peakHz() / driver.resonanceHz(), 1e-10, where);
      assertClose(rise, read.totalQ() / driver.totalQ(), 1e-9, where);
    }
  }

  /** Vas = Vb (fc Qec / (fs Qes) - 1), with air of any density. */
  @Test
  void knownClosedBoxTellsTheEquivalentVolume() {
    Driver driver = EXAMPLE.parameters(1.2, 343);
    double volume = 0.08;
    Resonance free = CurveReading.resonance(Network.of(BoxModel.freeAir(driver)), 7, 5, 100);
    Resonance closed =
        CurveReading.resonance(Network.of(sealed(driver, EXAMPLE_AIR, volume)), 7, 10, 200);
    double vas =
        volume
            * (closed.peakHz() * closed.electricalQ() / (free.peakHz() * free.electricalQ()) - 1);
    assertClose(0.34094, vas, 2e-5, "the worked example's Vas");
  }

  /** Mms = Ma / ((fs/fm)^2 - 1); needs the area, density and sound speed to come together. */
  @Test
  void addedMassTellsTheMovingMass() {
    Driver driver = EXAMPLE.parameters(1.2, 343);
    for (double added : new double[] {0.01, 0.0222, 0.044, 0.09}) {
      BoxModel box =
          new BoxModel(
              EXAMPLE_AIR,
              List.of(),
              List.of(
                  new Mounted("driver", driver.withAddedMass(added), Space.OUTSIDE, Space.OUTSIDE)),
              Circuit.coil("driver", 1));
      double fm = CurveReading.resonance(Network.of(box), 7, 5, 100).peakHz();
      double ratio = EXAMPLE.resonanceHz() / fm;
      assertClose(0.044459, added / (ratio * ratio - 1), 1e-9, added + " kg added");
    }
  }

  /** W. M. Leach, J. Audio Eng. Soc. 50(6) 442, 2002: K (j w)^n; the figure by calculator. */
  @Test
  void lossyCoilAddsItsPowerLaw() {
    Driver driver = EXAMPLE.parameters();
    Driver wound = driver.withInductance(Inductance.lossy(6.89e-3, 0.7), 0);
    Complex added =
        Network.of(BoxModel.freeAir(wound))
            .impedance(1000)
            .subtract(Network.of(BoxModel.freeAir(driver)).impedance(1000));
    assertEquals(1.426, added.getReal(), 0.0005);
    assertEquals(2.798, added.getImaginary(), 0.0005);
  }

  @Test
  void exponentOfOneIsAPlainInductanceAndBothFormsAdd() {
    Driver driver = EXAMPLE.parameters();
    Network plain =
        Network.of(BoxModel.freeAir(driver.withInductance(Inductance.plain(0.0015), 0)));
    Network power =
        Network.of(BoxModel.freeAir(driver.withInductance(Inductance.lossy(0.0015, 1), 0)));
    Network both =
        Network.of(BoxModel.freeAir(driver.withInductance(new Inductance(0.0005, 0.001, 1), 0)));
    for (double f = 1; f < 20_000; f *= 1.3) {
      Complex expected =
          EXAMPLE.oneCoil(f, Complex.ZERO).add(new Complex(0, 2 * Math.PI * f * 0.0015));
      assertClose(expected, plain.impedance(f), 1e-12, f + " Hz plain");
      assertClose(expected, power.impedance(f), 1e-12, f + " Hz power");
      assertClose(expected, both.impedance(f), 1e-12, f + " Hz both");
    }
  }

  /**
   * Creep after M. H. Knudsen and J. G. Jensen, J. Audio Eng. Soc. 41, 1993 (from memory): the
   * compliance goes with 1 - creep log10(j f / fs), written here with a complex logarithm, and is
   * scaled so that the reactance of the suspension at fs is the one without creep.
   */
  @Test
  void creepSoftensTheSuspensionBelowResonanceAndAddsALossThere() {
    double creep = 0.12;
    Network network = Network.of(BoxModel.freeAir(EXAMPLE.parameters().withCreep(creep)));
    double fs = EXAMPLE.resonanceHz();
    Complex atResonance = creeping(creep, 1).reciprocal();
    double scale = atResonance.getReal();
    for (double f = 0.1; f < 2000; f *= 1.2) {
      double w = 2 * Math.PI * f;
      Complex compliance = creeping(creep, f / fs).multiply(scale * EXAMPLE.complianceMPerN());
      Complex mechanical =
          new Complex(EXAMPLE.lossNsPerM(), w * EXAMPLE.massKg())
              .add(new Complex(0, w).multiply(compliance).reciprocal());
      Complex expected = mechanical.reciprocal().multiply(11.4 * 11.4).add(7);
      assertClose(expected, network.impedance(f), 1e-12, f + " Hz");
    }
  }

  private static Complex creeping(double creep, double ratio) {
    Complex decades = new Complex(0, ratio).log().divide(Math.log(10));
    return Complex.ONE.subtract(decades.multiply(creep));
  }

  /**
   * At fs the reactance still passes zero, and Zmax = Re (1 + Qm/Qes) with the Q of both losses.
   */
  @Test
  void driverWithCreepResonatesAtItsFsWithTheQualityOfBothLosses() {
    Driver driver = EXAMPLE.parameters().withCreep(0.12);
    Network network = Network.of(BoxModel.freeAir(driver));
    double peak = CurveReading.zeroHz(f -> network.impedance(f).getImaginary(), 10, 50);
    assertClose(driver.resonanceHz(), peak, 1e-10, "fs");
    double ratio = network.impedance(peak).getReal() / 7;
    double quality = (ratio - 1) * driver.electricalQ();
    assertClose(Driver.mechanicalQOf(driver.mechanicalQ(), 0.12), quality, 1e-10, "Qm");
    assertClose(
        quality * driver.electricalQ() / (quality + driver.electricalQ()),
        driver.totalQ(),
        1e-10,
        "Qts");
  }

  /** 0.393 %/K from 20 degrees (NBS Handbook 100, 1966, second-hand); the motor stays as it is. */
  @Test
  void warmCopperAddsResistanceAndNothingElse() {
    assertEquals(1.393, Copper.factorAt(120), 1e-12);
    Driver cold = EXAMPLE.parameters();
    Network warm = Network.of(BoxModel.freeAir(cold.withCoilsAt(70)));
    Network reference = Network.of(BoxModel.freeAir(cold));
    for (double f = 0; f < 500; f += 7.3) {
      Complex more = warm.impedance(f).subtract(reference.impedance(f));
      assertClose(new Complex(7 * 0.00393 * 50), more, 1e-9, f + " Hz");
    }
  }

  /** ISO 9613-1 (from memory): 343.2 sqrt(T / 293.15). */
  @Test
  void soundIsFasterInWarmAirWhileTheAirsStiffnessStays() {
    assertEquals(337.3, Air.at(10).soundMPerS(), 0.05);
    assertEquals(343.2, Air.at(20).soundMPerS(), 1e-9);
    assertEquals(349.0, Air.at(30).soundMPerS(), 0.05);
    double atSeaLevel = 1.4 * 101_325; // gamma p, ideal diatomic gas (common practice)
    for (double celsius = -20; celsius <= 50; celsius += 10) {
      assertClose(atSeaLevel, Air.at(celsius).bulkModulusPa(), 2e-3, celsius + " degrees");
    }
  }
}
