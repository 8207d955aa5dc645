package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** A resistance in series with a parallel resonance: |Z| is their sum at the resonance. */
class CurveShapeTest {
  private static final double OHM = 6;
  private static final double RESONANCE_HZ = 40;
  private static final double RESONANT_OHM = 30;
  private static final double Q = 5;

  private static ImpedanceCurve resonance(double times) {
    List<ImpedancePoint> points = new ArrayList<>();
    points.add(new ImpedancePoint(0, times * OHM, 0, Optional.empty()));
    for (int i = 0; i <= 240; i++) {
      double hz = 10 * Math.pow(40, i / 240.0);
      double off = Q * (hz / RESONANCE_HZ - RESONANCE_HZ / hz);
      Complex z = new Complex(RESONANT_OHM).divide(new Complex(1, off)).add(OHM).multiply(times);
      points.add(new ImpedancePoint(hz, z.getReal(), z.getImaginary(), Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }

  @Test
  void readsPeakLowestAndDirectResistance() {
    CurveShape shape = CurveShape.of(resonance(1));
    assertEquals(1, shape.peaks().size());
    assertEquals(RESONANCE_HZ, shape.peaks().get(0).frequencyHz(), 0.1);
    assertEquals(OHM + RESONANT_OHM, shape.peaks().get(0).modulusOhm(), 0.05);
    assertEquals(OHM, shape.lowest().modulusOhm(), 0.06);
    assertEquals(OHM, shape.dcOhm());
  }

  @Test
  void seesACurveThatIsAnotherTimesANumberAndOneThatIsNot() {
    assertEquals(0.25, CurveShape.timesOf(resonance(0.25), resonance(1)).orElseThrow(), 1e-12);
    ImpedanceCurve flat =
        new ImpedanceCurve(
            resonance(1).points().stream()
                .map(p -> new ImpedancePoint(p.frequencyHz(), OHM, 0, Optional.empty()))
                .toList());
    assertTrue(CurveShape.timesOf(flat, resonance(1)).isEmpty());
  }

  @Test
  void refusesACurveWithoutDirectResistance() {
    List<ImpedancePoint> points = resonance(1).points();
    ImpedanceCurve above = new ImpedanceCurve(points.subList(1, points.size()));
    assertThrows(IllegalArgumentException.class, () -> CurveShape.of(above));
  }
}
