package conewise.station.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.SampleCards;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TerminalChartTest {

  @Test
  void theCurveFitsEightyColumnsInUnicodeAndInAscii() {
    for (boolean unicode : new boolean[] {true, false}) {
      List<String> lines = TerminalChart.draw(sample(), unicode);
      lines.forEach(line -> assertTrue(line.length() <= 80, line));
      if (!unicode) {
        lines.forEach(line -> assertTrue(line.chars().allMatch(c -> c < 0x7F), line));
      }
    }
  }

  @Test
  void axesBearUnitsAndTheTradesFrequencies() {
    String chart = String.join("\n", TerminalChart.draw(sample(), false));
    assertTrue(chart.contains("|Z|, ohm"), chart);
    assertTrue(chart.matches("(?s).*10 +20 +50 +100 +200.* Hz.*"), chart);
  }

  @Test
  void peaksDipAndTheAllowedBandAreMarked() {
    String chart = String.join("\n", TerminalChart.draw(sample(), false));
    assertTrue(chart.contains("v 20.7 Hz 27.9 ohm   ^ 33.1 Hz 4.5 ohm   v 52.4 Hz"), chart);
    assertTrue(chart.contains("] tuning allowed"), chart);
  }

  @Test
  void theHighestPeakStandsAboveItsFrequency() {
    List<String> lines = TerminalChart.draw(sample(), false);
    int row = 1;
    while (!lines.get(row).contains("*")) {
      row++;
    }
    int column = lines.get(row).indexOf('*') - 9;
    double hz = 10 * Math.pow(398.0 / 10, column / 69.0);
    assertEquals(20.7, hz, 1.2, "the top of the curve stands at " + hz + " Hz");
  }

  @Test
  void anyCurveCanBeDrawn() {
    long seed = 7;
    Random random = new Random(seed);
    for (int run = 0; run < 200; run++) {
      List<ImpedancePoint> points = new ArrayList<>();
      double hz = Math.pow(10, random.nextDouble() * 6 - 2);
      int count = 1 + random.nextInt(30);
      for (int i = 0; i < count; i++) {
        hz *= 1 + random.nextDouble();
        double scale = Math.pow(10, random.nextDouble() * 12 - 6);
        double r = random.nextGaussian() * scale;
        points.add(new ImpedancePoint(hz, r, random.nextGaussian() * scale, Optional.empty()));
      }
      Drawing drawing = found(Drawing.of(new ImpedanceCurve(points), List.of()));
      for (String line : TerminalChart.draw(drawing, run % 2 == 0)) {
        assertTrue(line.length() <= 80, "seed " + seed + ", run " + run + ": " + line);
      }
      String svg = SvgChart.draw(drawing);
      assertTrue(!svg.contains("NaN") && !svg.contains("Infinity"), "seed " + seed + " run " + run);
    }
  }

  private static Drawing sample() {
    return found(Drawing.of(SampleCards.passed()));
  }

  private static Drawing found(Outcome<Drawing> outcome) {
    return ((Outcome.Found<Drawing>) outcome).value();
  }
}
