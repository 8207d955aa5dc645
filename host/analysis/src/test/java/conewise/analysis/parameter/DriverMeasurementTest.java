package conewise.analysis.parameter;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * The driver of the closed-form example (Re 7, Mms 44.459 g, Cms 1.18e-3, Rms 1.85, Bl 11.4, radius
 * 0.12 m; Thiele 1971, Small 1972): its parameters come back from swept curves.
 */
class DriverMeasurementTest {
  private static final long SEED = 311;
  private static final double NOISE = 0.005;

  private final PhysicalDriver truth = new PhysicalDriver();
  private final Random random = new Random(SEED);

  private ImpedanceCurve curve(double addedKg, double boxM3) {
    return truth.curve(addedKg, boxM3, NOISE, random);
  }

  private static DriverFigures figures(DriverMeasurement measurement) {
    Outcome<DriverFigures> outcome = measurement.figures();
    if (outcome instanceof NoResult<DriverFigures> none) {
      throw new AssertionError("seed " + SEED + ": " + none.because());
    }
    return ((Found<DriverFigures>) outcome).value();
  }

  /** Within a tolerance that is told, and with the truth in an interval of twice the width. */
  private static void assertTells(double expected, double relative, Outcome<Estimate> outcome) {
    if (!(outcome instanceof Found<Estimate> found)) {
      throw new AssertionError("seed " + SEED + ": " + outcome);
    }
    Estimate estimate = found.value();
    assertEquals(expected, estimate.value(), relative * expected, "seed " + SEED);
    double arm = estimate.relativeWidth() * estimate.value();
    assertTrue(
        Math.abs(estimate.value() - expected) <= 2 * arm,
        "seed " + SEED + ": " + expected + " against " + estimate);
  }

  @Test
  void freeAirGivesTheElectricalFiguresAndSaysWhyNoOthers() {
    DriverFigures figures = figures(DriverMeasurement.freeAir(curve(0, 0), 1));
    assertTells(7, 0.01, figures.dcResistanceOhm());
    assertTells(21.974, 0.002, figures.resonanceHz());
    assertTells(0.33062, 0.02, figures.electricalQ());
    assertTells(3.3179, 0.02, figures.mechanicalQ());
    assertTells(0.30066, 0.02, figures.totalQ());
    double w = 2 * Math.PI * DriverFigures.COIL_REFERENCE_HZ;
    double modulus = truth.lossyOhm * Math.pow(w, truth.exponent);
    assertTells(modulus * Math.sin(0.35 * Math.PI) / w, 0.05, figures.coilInductanceHenry());
    assertTrue(
        figures.movingMassKg() instanceof NoResult<Estimate> none
            && none.because().contains("known mass"));
    assertTrue(figures.equivalentVolumeM3() instanceof NoResult<Estimate>);
  }

  @Test
  void anAddedMassGivesMassComplianceAndForceFactor() {
    DriverFigures figures =
        figures(DriverMeasurement.freeAir(curve(0, 0), 1).withAddedMass(0.040, curve(0.040, 0)));
    assertTells(truth.massKg, 0.03, figures.movingMassKg());
    assertTells(truth.complianceMPerN, 0.03, figures.complianceMPerN());
    assertTells(truth.forceFactorTm, 0.02, figures.forceFactorTm());
    assertTells(truth.lossNsPerM, 0.05, figures.mechanicalLossNsPerM());
    assertTrue(figures.equivalentVolumeM3() instanceof NoResult<Estimate>);
  }

  @Test
  void anAddedMassAndTheAreaGiveVasToo() {
    DriverFigures figures =
        figures(
            DriverMeasurement.freeAir(curve(0, 0), 1)
                .withAddedMass(0.040, curve(0.040, 0))
                .withArea(truth.areaM2));
    assertTells(truth.equivalentVolumeM3(), 0.03, figures.equivalentVolumeM3());
    assertTells(truth.massKg, 0.03, figures.movingMassKg());
  }

  @Test
  void aKnownBoxGivesVas() {
    DriverFigures figures =
        figures(DriverMeasurement.freeAir(curve(0, 0), 1).withBox(0.080, curve(0, 0.080)));
    assertTells(truth.equivalentVolumeM3(), 0.03, figures.equivalentVolumeM3());
    assertTrue(figures.movingMassKg() instanceof NoResult<Estimate>);
  }

  @Test
  void aMassAndABoxTogetherGiveTheArea() {
    DriverFigures figures =
        figures(
            DriverMeasurement.freeAir(curve(0, 0), 1)
                .withAddedMass(0.040, curve(0.040, 0))
                .withBox(0.080, curve(0, 0.080)));
    assertTells(truth.areaM2, 0.03, figures.areaM2());
    assertTells(truth.massKg, 0.03, figures.movingMassKg());
    assertTells(truth.equivalentVolumeM3(), 0.03, figures.equivalentVolumeM3());
  }

  @Test
  void aKnownMovingMassGivesForceFactorAndCompliance() {
    DriverFigures figures =
        figures(
            DriverMeasurement.freeAir(curve(0, 0), 1)
                .withMovingMass(truth.massKg)
                .withArea(truth.areaM2));
    assertTells(truth.forceFactorTm, 0.02, figures.forceFactorTm());
    assertTells(truth.equivalentVolumeM3(), 0.02, figures.equivalentVolumeM3());
  }

  @Test
  void aResistorIsNoDriver() {
    List<ImpedancePoint> points =
        java.util.stream.IntStream.range(1, 60)
            .mapToObj(i -> new ImpedancePoint(6.0 * i, 8, 0, Optional.empty()))
            .toList();
    Outcome<DriverFigures> outcome =
        DriverMeasurement.freeAir(new ImpedanceCurve(points), 1).figures();
    assertTrue(
        outcome instanceof NoResult<DriverFigures> none && none.because().contains("no peak"));
  }
}
