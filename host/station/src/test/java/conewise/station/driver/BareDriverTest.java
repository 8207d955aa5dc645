package conewise.station.driver;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/**
 * Curves of a driver without inductance, Z = Re + Re Qms/Qes / (1 + j Qms (f/fs - fs/f)) (Small, J.
 * Audio Eng. Soc. 20, 1972).
 */
class BareDriverTest {
  private static final KnownOfDriver NOTHING =
      new KnownOfDriver(OptionalDouble.empty(), OptionalDouble.empty(), 1);

  private static ImpedanceCurve curve(double fsHz, double lowHz, double highHz, int points) {
    List<ImpedancePoint> list = new ArrayList<>();
    list.add(new ImpedancePoint(0, 6, 0, Optional.empty()));
    for (int i = 0; i < points; i++) {
      double hz = lowHz * Math.pow(highHz / lowHz, i / (points - 1.0));
      Complex z = new Complex(1, 5 * (hz / fsHz - fsHz / hz)).reciprocal().multiply(60).add(6);
      list.add(new ImpedancePoint(hz, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    return new ImpedanceCurve(list);
  }

  private static DriverSweep freeAir(ImpedanceCurve curve) {
    return new DriverSweep(Path.of("free.csv"), new DriverState.FreeAir(), curve);
  }

  @Test
  void ofManyPointsSomeAreFittedAndTheAnswerSaysHowMany() {
    Outcome<BareDriver> outcome =
        BareDriver.of(List.of(freeAir(curve(40, 10, 20_000, 6000))), NOTHING);
    BareDriver driver = ((Outcome.Found<BareDriver>) outcome).value();
    ImpedanceCurve fitted = driver.sweeps().get(0).curve();
    assertTrue(fitted.points().size() <= 200 && fitted.points().size() > 150, "" + fitted.points());
    assertEquals(0, fitted.lowestHz());
    assertTrue(fitted.highestHz() <= 420 && fitted.highestHz() > 400, "" + fitted.highestHz());
    assertTrue(
        driver.notes().get(0).contains("Of the 6001 points of free.csv"), driver.notes().get(0));
  }

  @Test
  void aSweepAsTheJigMakesItIsFittedWhole() {
    DriverSweep sweep = freeAir(curve(40, 9.5, 400.5, 121));
    assertEquals(sweep.curve(), sweep.fitted(420).curve());
  }

  @Test
  void aResonanceBelowTheSweepIsSaidToLieThere() {
    Outcome<BareDriver> outcome = BareDriver.of(List.of(freeAir(upFrom(40))), NOTHING);
    Outcome.NoResult<?> none = assertInstanceOf(Outcome.NoResult.class, outcome);
    assertTrue(none.because().contains("falls from its lowest frequency, 40 Hz"), none.because());
  }

  private static ImpedanceCurve upFrom(double lowHz) {
    return new ImpedanceCurve(
        curve(20, lowHz, 400, 100).points().stream().filter(p -> p.frequencyHz() > 0).toList());
  }

  @Test
  void sweepsOfUnlikeScalesAreRemarkedUpon() {
    ImpedanceCurve calibrated = new ImpedanceCurve(curve(40, 10, 400, 100).points(), 0.006);
    ImpedanceCurve plain = curve(28, 10, 400, 100);
    DriverSweep heavy = new DriverSweep(Path.of("m.csv"), new DriverState.WithMass(20), plain);
    List<String> notes =
        DriverNotes.of(
            List.of(freeAir(calibrated), heavy), List.of(freeAir(calibrated), heavy), NOTHING);
    assertTrue(notes.get(0).contains("standard uncertainty of 0.60 %"), notes.get(0));
    assertTrue(notes.get(1).contains("taken to share one"), notes.get(1));
  }

  @Test
  void whatCannotBeIsRefusedWithValueAndLimits() {
    String mass =
        assertThrows(IllegalArgumentException.class, () -> new DriverState.WithMass(0))
            .getMessage();
    assertEquals("a mass on the cone is given as 0 g; it must be from 0.01 to 5000", mass);
    assertThrows(IllegalArgumentException.class, () -> new DriverState.InBox(Double.NaN));
  }
}
