package conewise.analysis.model;

/**
 * A small dense system of complex equations, solved in place by elimination with row exchange
 * (Golub and Van Loan, Matrix Computations, 3.4). Real and imaginary parts lie in flat arrays: no
 * object is made while solving. Not safe for threads.
 */
final class ComplexSystem {
  private final int stride;
  private final double[] re;
  private final double[] im;
  private int size;

  /** Room for systems of up to a number of unknowns. */
  ComplexSystem(int most) {
    stride = most + 1;
    re = new double[most * stride];
    im = new double[most * stride];
  }

  /** Starts a system of a number of unknowns, all zero. */
  void clear(int unknowns) {
    size = unknowns;
    java.util.Arrays.fill(re, 0, unknowns * stride, 0);
    java.util.Arrays.fill(im, 0, unknowns * stride, 0);
  }

  /** Adds to a coefficient; the column after the last unknown is the right side. */
  void add(int row, int column, double real, double imaginary) {
    re[row * stride + column] += real;
    im[row * stride + column] += imaginary;
  }

  /** Solves; the solution then stands in {@link #real} and {@link #imaginary}. */
  void solve() {
    for (int pivot = 0; pivot < size; pivot++) {
      exchange(pivot);
      int p = pivot * stride;
      double scale = 1 / square(p + pivot);
      double pivotRe = re[p + pivot] * scale;
      double pivotIm = -im[p + pivot] * scale;
      for (int row = pivot + 1; row < size; row++) {
        int r = row * stride;
        double a = re[r + pivot];
        double b = im[r + pivot];
        subtract(r, p, pivot + 1, a * pivotRe - b * pivotIm, a * pivotIm + b * pivotRe);
      }
    }
    for (int row = size - 1; row >= 0; row--) {
      substitute(row);
    }
  }

  private double square(int at) {
    return re[at] * re[at] + im[at] * im[at];
  }

  private void exchange(int pivot) {
    int best = pivot;
    for (int row = pivot + 1; row < size; row++) {
      if (square(row * stride + pivot) > square(best * stride + pivot)) {
        best = row;
      }
    }
    if (best != pivot) {
      for (int column = pivot; column <= size; column++) {
        int a = pivot * stride + column;
        int b = best * stride + column;
        double swap = re[a];
        re[a] = re[b];
        re[b] = swap;
        swap = im[a];
        im[a] = im[b];
        im[b] = swap;
      }
    }
  }

  /** Row r minus a complex factor times row p, from a column on. */
  private void subtract(int r, int p, int from, double factorRe, double factorIm) {
    for (int column = from; column <= size; column++) {
      double a = re[p + column];
      double b = im[p + column];
      re[r + column] -= factorRe * a - factorIm * b;
      im[r + column] -= factorRe * b + factorIm * a;
    }
  }

  private void substitute(int row) {
    int r = row * stride;
    double sumRe = re[r + size];
    double sumIm = im[r + size];
    for (int column = row + 1; column < size; column++) {
      double x = real(column);
      double y = imaginary(column);
      sumRe -= re[r + column] * x - im[r + column] * y;
      sumIm -= re[r + column] * y + im[r + column] * x;
    }
    double scale = 1 / square(r + row);
    double a = re[r + row] * scale;
    double b = -im[r + row] * scale;
    re[r + size] = sumRe * a - sumIm * b;
    im[r + size] = sumRe * b + sumIm * a;
  }

  double real(int unknown) {
    return re[unknown * stride + size];
  }

  double imaginary(int unknown) {
    return im[unknown * stride + size];
  }
}
