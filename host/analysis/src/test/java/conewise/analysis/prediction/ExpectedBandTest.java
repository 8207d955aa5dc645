package conewise.analysis.prediction;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.plan.PlannedBox;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Where the curves of good boxes lie. */
class ExpectedBandTest {
  private static final PlannedBox PLAN =
      Plans.shared(Plans.kind(3.6, 3.6), 2, Optional.of(Plans.tuned()), Plans.twoOfTwo());

  /** By its definition: at each frequency 95 of 100 other boxes lie within. */
  @Test
  void ninetyFiveOfAHundredOtherBoxesLieWithinAtEachFrequency() {
    ExpectedBand band = ExpectedBand.of(PLAN);
    Candidate planned = new Candidate(PLAN.model(), PLAN.unknowns());
    long seed = new Random().nextLong();
    Random random = new Random(seed);
    double[] hz = band.levels().stream().mapToDouble(ExpectedBand.Level::frequencyHz).toArray();
    int boxes = 200;
    int[] within = new int[hz.length];
    for (int i = 0; i < boxes; i++) {
      List<ImpedancePoint> points =
          PredictedCurve.of(
                  planned.model(), planned.unknowns(), DrawnBoxes.coordinates(planned, random), hz)
              .points();
      for (int f = 0; f < hz.length; f++) {
        within[f] += band.levels().get(f).modulusOhm().contains(points.get(f).modulusOhm()) ? 1 : 0;
      }
    }
    for (int f = 0; f < hz.length; f++) {
      // Binomial: 5 of its standard deviations, and as much for the band's own 400 boxes.
      assertEquals(0.95, within[f] / (double) boxes, 0.11, hz[f] + " Hz, seed " + seed);
    }
  }

  @Test
  void theBoxAsPlannedLiesWithinAndTheSamePlanGetsTheSameBand() {
    ExpectedBand band = ExpectedBand.of(PLAN);
    assertEquals(band, ExpectedBand.of(PLAN));
    double[] hz = band.levels().stream().mapToDouble(ExpectedBand.Level::frequencyHz).toArray();
    List<ImpedancePoint> planned =
        PredictedCurve.of(PLAN.model(), PLAN.unknowns(), java.util.Map.of(), hz).points();
    for (int f = 0; f < hz.length; f++) {
      ExpectedBand.Level level = band.levels().get(f);
      assertTrue(level.modulusOhm().contains(planned.get(f).modulusOhm()), level.toString());
      assertTrue(level.phaseDegrees().contains(planned.get(f).phaseDegrees()), level.toString());
    }
  }
}
