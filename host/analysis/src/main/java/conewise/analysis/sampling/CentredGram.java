package conewise.analysis.sampling;

import conewise.analysis.outcome.Outcome;
import java.util.Locale;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * The normal equations of a tone fit on equally spaced samples, about the middle of the record.
 *
 * <p>There, cosines and the constant are even, sines and the drift odd, so the equations fall apart
 * into two halves; and each entry is a Dirichlet kernel in closed form: with k' = k - (N - 1)/2,
 * D(a) = sum of cos(a k') = sin(a N/2)/sin(a/2) (geometric series), sum of k' sin(a k') = -D'(a).
 * Nothing is summed over samples, whatever the number of tones. When the record holds whole periods
 * every kernel off the diagonal is 0 and no system is solved.
 */
final class CentredGram {

  /**
   * The largest condition number (1-norm, unit diagonal) taken. Beyond it some combination of tones
   * would have its noise raised a thousandfold: a number, but no measurement.
   */
  static final double LARGEST_CONDITION = 1e6;

  /** Kernels below this part of N count as 0: they are rounding. */
  private static final double ORTHOGONAL = 1e-11;

  private final Half even;
  private final Half odd;
  private final boolean drift;

  private CentredGram(Half even, Half odd, boolean drift) {
    this.even = even;
    this.odd = odd;
    this.drift = drift;
  }

  static Outcome<CentredGram> of(int length, double[] radians, boolean drift) {
    int tones = radians.length;
    double[][] even = new double[tones + 1][tones + 1];
    double[][] odd = new double[tones + (drift ? 1 : 0)][tones + (drift ? 1 : 0)];
    for (int i = 0; i < tones; i++) {
      for (int j = 0; j <= i; j++) {
        double difference = kernel(length, radians[i] - radians[j]) / 2;
        double sum = kernel(length, radians[i] + radians[j]) / 2;
        even[i][j] = even[j][i] = difference + sum;
        odd[i][j] = odd[j][i] = difference - sum;
      }
      even[i][tones] = even[tones][i] = kernel(length, radians[i]);
      if (drift) {
        odd[i][tones] = odd[tones][i] = -kernelSlope(length, radians[i]);
      }
    }
    even[tones][tones] = length;
    if (drift) {
      odd[tones][tones] = length * (length * (double) length - 1) / 12;
    }
    try {
      return Outcome.found(new CentredGram(new Half(even), new Half(odd), drift));
    } catch (IllConditionedException tooClose) {
      return Outcome.none(tooClose.getMessage());
    }
  }

  boolean hasDrift() {
    return drift;
  }

  int oddSize() {
    return odd.scale.length;
  }

  double[] solveEven(double[] sums) {
    return even.solve(sums);
  }

  double[] solveOdd(double[] sums) {
    return odd.solve(sums);
  }

  /** The diagonal entry of the inverse for a cosine: its variance over that of the noise. */
  double evenInverse(int tone) {
    return even.inverseDiagonal(tone);
  }

  /** The diagonal entry of the inverse for a sine. */
  double oddInverse(int tone) {
    return odd.inverseDiagonal(tone);
  }

  private static double kernel(int length, double angle) {
    double below = Math.sin(angle / 2);
    if (Math.abs(below) < 1e-12) {
      return length * Math.cos(angle * length / 2) / Math.cos(angle / 2);
    }
    return Math.sin(angle * length / 2) / below;
  }

  private static double kernelSlope(int length, double angle) {
    double below = Math.sin(angle / 2);
    double above = Math.sin(angle * length / 2);
    return (length * Math.cos(angle * length / 2) * below - above * Math.cos(angle / 2))
        / (2 * below * below);
  }

  private static final class IllConditionedException extends Exception {
    IllConditionedException(String message) {
      super(message);
    }
  }

  /** One half of the equations, scaled to a unit diagonal. */
  private static final class Half {
    private final double[] scale;

    /** The inverse of the scaled matrix; null when that is the identity. */
    private final RealMatrix inverse;

    Half(double[][] matrix) throws IllConditionedException {
      scale = new double[matrix.length];
      for (int i = 0; i < scale.length; i++) {
        if (!(matrix[i][i] > 1e-9)) {
          throw new IllConditionedException("one of them leaves no trace in the samples");
        }
        scale[i] = 1 / Math.sqrt(matrix[i][i]);
      }
      boolean diagonal = true;
      for (int i = 0; i < scale.length; i++) {
        for (int j = 0; j < scale.length; j++) {
          matrix[i][j] *= scale[i] * scale[j];
          diagonal &= i == j || Math.abs(matrix[i][j]) < ORTHOGONAL;
        }
      }
      inverse = diagonal ? null : invert(new Array2DRowRealMatrix(matrix, false));
    }

    private static RealMatrix invert(RealMatrix matrix) throws IllConditionedException {
      try {
        RealMatrix inverse =
            new CholeskyDecomposition(matrix, 1e-9, 1e-13).getSolver().getInverse();
        double condition = matrix.getNorm() * inverse.getNorm();
        if (condition > LARGEST_CONDITION) {
          throw new IllConditionedException(
              String.format(
                  Locale.ROOT, "condition number %.2g, limit %.0g", condition, LARGEST_CONDITION));
        }
        return inverse;
      } catch (NonPositiveDefiniteMatrixException singular) {
        throw new IllConditionedException("they are one and the same to it");
      }
    }

    double[] solve(double[] sums) {
      double[] scaled = new double[sums.length];
      for (int i = 0; i < sums.length; i++) {
        scaled[i] = sums[i] * scale[i];
      }
      double[] solved = inverse == null ? scaled : inverse.operate(scaled);
      for (int i = 0; i < sums.length; i++) {
        solved[i] *= scale[i];
      }
      return solved;
    }

    double inverseDiagonal(int i) {
      return scale[i] * scale[i] * (inverse == null ? 1 : inverse.getEntry(i, i));
    }
  }
}
