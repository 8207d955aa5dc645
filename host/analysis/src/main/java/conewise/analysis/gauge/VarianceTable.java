package conewise.analysis.gauge;

import org.apache.commons.math3.distribution.FDistribution;

/**
 * Analysis of variance of a crossed study, all effects random (G. W. Snedecor and W. G. Cochran,
 * Statistical Methods, two-way classification with interaction; NIST/SEMATECH e-Handbook of
 * Statistical Methods, 3.2.3.2).
 *
 * @param part between the parts
 * @param operator between the operators
 * @param interaction that some operators read some parts otherwise
 * @param repeat between readings of one part by one operator
 */
public record VarianceTable(Line part, Line operator, Line interaction, Line repeat) {
  /**
   * An interaction that chance makes as large as this often is taken for repeatability (T. A.
   * Bancroft, Biometrics 20, 1964: a preliminary test at 0.25).
   */
  public static final double POOLED_ABOVE = 0.25;

  /**
   * One source of spread.
   *
   * @param sum of squares, in the unit's square
   * @param freedom degrees of freedom
   */
  public record Line(double sum, int freedom) {
    /** The mean square. */
    public double mean() {
      return sum / freedom;
    }

    Line and(Line other) {
      return new Line(sum + other.sum, freedom + other.freedom);
    }
  }

  static VarianceTable of(CrossedReadings readings) {
    int parts = readings.parts().size();
    int operators = readings.operators().size();
    int trials = readings.trials();
    double grand = readings.mean();
    double ofParts = 0;
    double ofOperators = 0;
    double ofCells = 0;
    double repeats = 0;
    for (int i = 0; i < parts; i++) {
      ofParts += square(readings.partMean(i) - grand);
    }
    for (int j = 0; j < operators; j++) {
      double operatorMean = readings.operatorMean(j);
      ofOperators += square(operatorMean - grand);
      for (int i = 0; i < parts; i++) {
        double mean = readings.cellMean(i, j);
        ofCells += square(mean - readings.partMean(i) - operatorMean + grand);
        for (double value : readings.cell(i, j)) {
          repeats += square(value - mean);
        }
      }
    }
    return new VarianceTable(
        new Line(operators * trials * ofParts, parts - 1),
        new Line(parts * trials * ofOperators, operators - 1),
        new Line(trials * ofCells, (parts - 1) * (operators - 1)),
        new Line(repeats, parts * operators * (trials - 1)));
  }

  private static double square(double x) {
    return x * x;
  }

  /** How often chance alone makes the interaction as large as this, 0 to 1. */
  public double chanceOfInteraction() {
    if (repeat.sum() == 0) {
      return interaction.sum() == 0 ? 1 : 0;
    }
    double ratio = interaction.mean() / repeat.mean();
    return 1
        - new FDistribution(null, interaction.freedom(), repeat.freedom())
            .cumulativeProbability(ratio);
  }

  /** Whether the interaction is taken for repeatability. */
  public boolean pooled() {
    return chanceOfInteraction() > POOLED_ABOVE;
  }
}
