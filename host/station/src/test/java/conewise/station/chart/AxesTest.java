package conewise.station.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class AxesTest {

  @Test
  void aBoxesSweepBearsTheTradesTicks() {
    List<Double> ticks = new FrequencyAxis(10, 400).ticksHz();
    assertEquals(List.of(10.0, 20.0, 50.0, 100.0, 200.0, 400.0), ticks);
    assertEquals(List.of(20.0, 50.0, 100.0), new FrequencyAxis(15, 180).ticksHz());
    assertEquals(1000.0, new FrequencyAxis(10, 2000).ticksHz().get(6));
  }

  @Test
  void equalRatiosTakeEqualRoom() {
    FrequencyAxis axis = new FrequencyAxis(10, 1000);
    assertEquals(0.5, axis.position(100), 1e-12);
    assertEquals(100, axis.frequencyHz(0.5), 1e-9);
  }

  @Test
  void theOhmAxisHoldsItsLargestValueInFewRoundSteps() {
    for (double largest : new double[] {1e-9, 0.03, 1, 4.5, 6, 27.9, 60, 61, 999, 1e13}) {
      OhmAxis axis = OhmAxis.upTo(largest);
      assertTrue(axis.topOhm() >= Math.min(largest, 1e12) * (1 - 1e-6), "top of " + largest);
      assertTrue(axis.steps() <= 6, axis.steps() + " steps for " + largest);
    }
    assertEquals(new OhmAxis(5, 6), OhmAxis.upTo(27.9));
  }

  /** JCGM 100 H.2 prints, for its R, X and |Z|, the uncertainties used here (from memory). */
  @Test
  void theSpreadOfTheModulusFollowsTheCovarianceOfItsParts() {
    double covariance = -0.588 * 0.0711 * 0.2956;
    ImpedancePoint point =
        new ImpedancePoint(
            400,
            127.732,
            219.847,
            Optional.of(new ImpedanceUncertainty(0.0711 * 0.0711, 0.2956 * 0.2956, covariance)));
    assertEquals(2 * 0.2363, PolarSpread.of(point, 0).modulusOhm(), 2 * 0.002);
  }
}
