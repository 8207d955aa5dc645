package conewise.analysis.gauge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Against the worked study of ten parts, three appraisers and three trials in Automotive Industry
 * Action Group, Measurement Systems Analysis, 4th edition, 2010, chapter III, whose data and
 * answers B. McNeese reprints in "Three Ways to Analyze a Gage R&amp;R Study", 2015; further
 * digits, and the altered data, by NumPy's least squares and SciPy's chi-squared.
 */
class GaugeStudyTest {
  private static final double[][][] WORKED = {
    {
      {0.29, -0.56, 1.34, 0.47, -0.80, 0.02, 0.59, -0.31, 2.26, -1.36},
      {0.41, -0.68, 1.17, 0.50, -0.92, -0.11, 0.75, -0.20, 1.99, -1.25},
      {0.64, -0.58, 1.27, 0.64, -0.84, -0.21, 0.66, -0.17, 2.01, -1.31}
    },
    {
      {0.08, -0.47, 1.19, 0.01, -0.56, -0.20, 0.47, -0.63, 1.80, -1.68},
      {0.25, -1.22, 0.94, 1.03, -1.20, 0.22, 0.55, 0.08, 2.12, -1.62},
      {0.07, -0.68, 1.34, 0.20, -1.28, 0.06, 0.83, -0.34, 2.19, -1.50}
    },
    {
      {0.04, -1.38, 0.88, 0.14, -1.46, -0.29, 0.02, -0.46, 1.77, -1.49},
      {-0.11, -1.13, 1.09, 0.20, -1.07, -0.67, 0.01, -0.56, 1.45, -1.77},
      {-0.15, -0.96, 0.67, 0.11, -1.45, -0.49, 0.21, -0.49, 1.87, -2.16}
    }
  };

  private static List<GaugeReading> worked() {
    List<GaugeReading> readings = new ArrayList<>();
    for (int operator = 0; operator < WORKED.length; operator++) {
      for (double[] trial : WORKED[operator]) {
        for (int part = 0; part < trial.length; part++) {
          readings.add(
              new GaugeReading("P" + part, "ABC".substring(operator, operator + 1), trial[part]));
        }
      }
    }
    return readings;
  }

  private static GaugeStudy found(List<GaugeReading> readings) {
    Outcome<GaugeStudy> outcome = GaugeStudy.of(readings);
    assertTrue(outcome instanceof Found<GaugeStudy>, outcome::toString);
    return ((Found<GaugeStudy>) outcome).value();
  }

  private static String none(List<GaugeReading> readings) {
    Outcome<GaugeStudy> outcome = GaugeStudy.of(readings);
    assertTrue(outcome instanceof NoResult<GaugeStudy>, outcome::toString);
    return ((NoResult<GaugeStudy>) outcome).because();
  }

  @Test
  void theWorkedStudysAnalysisOfVarianceComesOut() {
    GaugeStudy study = found(worked());
    // The published table: 88.3619 of 9, 3.1673 of 2, pooled 3.118 of 78.
    assertEquals(88.36193444, study.table().part().sum(), 1e-6);
    assertEquals(9, study.table().part().freedom());
    assertEquals(3.16726222, study.table().operator().sum(), 1e-6);
    assertEquals(0.35898222, study.table().interaction().sum(), 1e-6);
    assertEquals(18, study.table().interaction().freedom());
    assertEquals(2.75893333, study.table().repeat().sum(), 1e-6);
    assertEquals(60, study.table().repeat().freedom());
    assertEquals(0.97410640, study.table().chanceOfInteraction(), 1e-6);
    assertTrue(study.table().pooled());
    assertEquals(0.199933, study.byVariance().repeatability(), 5e-7);
    assertEquals(0.226838, study.byVariance().reproducibility(), 5e-7);
    assertEquals(0.302373, study.byVariance().gauge(), 2e-6);
    assertEquals(1.042327, study.byVariance().parts(), 5e-7);
    assertEquals(0.2786, study.byVariance().shareOfTotal(), 5e-5);
    assertEquals(4, study.byVariance().kinds());
    // Satterthwaite with 5.918 degrees of freedom, by SciPy.
    assertEquals(0.19439118, study.gauge().interval().low(), 1e-6);
    assertEquals(0.67086379, study.gauge().interval().high(), 1e-6);
  }

  @Test
  void theWorkedStudysAveragesAndRangesComeOut() {
    Spread spread = found(worked()).byRange();
    // The published sheet: 0.20188, 0.22963, 0.30575, 1.10456, 1.14610; 26.68 %; 5 kinds. Its
    // factors have four digits.
    assertEquals(0.20188, spread.repeatability(), 6e-5);
    assertEquals(0.22963, spread.reproducibility(), 6e-5);
    assertEquals(0.30575, spread.gauge(), 6e-5);
    assertEquals(1.10456, spread.parts(), 2e-4);
    assertEquals(1.14610, spread.total(), 2e-4);
    assertEquals(0.2668, spread.shareOfTotal(), 5e-5);
    assertEquals(5, spread.kinds());
  }

  @Test
  void operatorsWhoReadSomePartsOtherwiseAreFound() {
    List<GaugeReading> altered =
        worked().stream()
            .map(
                each -> {
                  boolean early = each.part().compareTo("P5") < 0;
                  double more =
                      early && each.operator().equals("A")
                          ? 0.6
                          : !early && each.operator().equals("B") ? -0.8 : 0;
                  return new GaugeReading(each.part(), each.operator(), each.value() + more);
                })
            .toList();
    GaugeStudy study = found(altered);
    assertFalse(study.table().pooled());
    assertEquals(0.21443466, study.byVariance().repeatability(), 1e-6);
    assertEquals(0.48472100, study.byVariance().reproducibility(), 1e-6);
    assertEquals(1.05123351, study.byVariance().parts(), 1e-6);
    assertEquals(0.31283313, study.gauge().interval().low(), 1e-6);
    assertEquals(1.62422880, study.gauge().interval().high(), 1e-5);
  }

  @Test
  void theOrderInWhichItWasReadSaysNothing() {
    List<GaugeReading> shuffled = new ArrayList<>(worked());
    long seed = new Random().nextLong();
    Collections.shuffle(shuffled, new Random(seed));
    GaugeStudy study = found(shuffled);
    assertEquals(0.302373, study.byVariance().gauge(), 2e-6, "seed " + seed);
    assertEquals(0.30575, study.byRange().gauge(), 6e-5, "seed " + seed);
  }

  @Test
  void drawnSpreadsAreReadBackOnAverage() {
    long seed = 7;
    Random random = new Random(seed);
    double gauge = 0;
    double parts = 0;
    int studies = 300;
    for (int study = 0; study < studies; study++) {
      Spread spread = found(drawn(random, 0.3, 0.4, 2)).byVariance();
      gauge += spread.gauge() * spread.gauge() / studies;
      parts += spread.parts() * spread.parts() / studies;
    }
    // A variance of the parts of 4 from 9 degrees of freedom: 4 (2/9)^0.5 / 300^0.5 = 0.11.
    assertEquals(0.25, gauge, 0.03, "seed " + seed);
    assertEquals(4, parts, 0.4, "seed " + seed);
  }

  private static List<GaugeReading> drawn(
      Random random, double repeat, double operators, double parts) {
    List<GaugeReading> readings = new ArrayList<>();
    double[] of = new double[3];
    java.util.Arrays.setAll(of, operator -> operators * random.nextGaussian());
    for (int part = 0; part < 10; part++) {
      double value = parts * random.nextGaussian();
      for (int operator = 0; operator < 3; operator++) {
        for (int trial = 0; trial < 3; trial++) {
          readings.add(
              new GaugeReading(
                  "P" + part,
                  "O" + operator,
                  value + of[operator] + repeat * random.nextGaussian()));
        }
      }
    }
    return readings;
  }

  @Test
  void aStudyThatIsNotWholeGivesNoResultWithTheReason() {
    List<GaugeReading> all = worked();
    assertTrue(none(List.of()).contains("are 0 parts"));
    assertTrue(
        none(all.stream().filter(each -> each.part().compareTo("P2") < 0).toList())
            .contains("are 2 parts"));
    assertTrue(
        none(all.stream().filter(each -> each.operator().equals("A")).toList())
            .contains("is 1 operator"));
    List<GaugeReading> missing = new ArrayList<>(all);
    missing.remove(14);
    String said = none(missing);
    assertTrue(said.contains("operator A") && said.contains("part P4"), said);
    assertTrue(said.contains("2 times") && said.contains("3 times"), said);
    List<GaugeReading> once =
        all.stream()
            .map(each -> new GaugeReading(each.part(), each.operator(), 1))
            .distinct()
            .toList();
    assertTrue(none(once).contains("is 1 trial"), none(once));
  }

  @Test
  void readingsWithoutAnySpreadGiveNoResult() {
    List<GaugeReading> flat =
        worked().stream()
            .map(
                each ->
                    new GaugeReading(each.part(), each.operator(), 4 + 0.1 * each.part().charAt(1)))
            .toList();
    assertTrue(none(flat).contains("the same"), none(flat));
  }

  @Test
  void theFactorsOfRangesAreTheTabulatedOnes() {
    // d2 of 2, 3, 5, 10: NIST/SEMATECH e-Handbook, 6.3.2.1, and E. S. Pearson's tables.
    assertEquals(1.128, RangeFactor.mean(2), 5e-4);
    assertEquals(1.693, RangeFactor.mean(3), 5e-4);
    assertEquals(2.326, RangeFactor.mean(5), 5e-4);
    assertEquals(3.078, RangeFactor.mean(10), 5e-4);
    // d2* of one sample: Measurement Systems Analysis, appendix C.
    assertEquals(1.41421, RangeFactor.rootMeanSquare(2), 2e-5);
    assertEquals(1.91155, RangeFactor.rootMeanSquare(3), 2e-5);
    assertEquals(2.48124, RangeFactor.rootMeanSquare(5), 2e-5);
    assertEquals(3.17905, RangeFactor.rootMeanSquare(10), 2e-5);
  }
}
