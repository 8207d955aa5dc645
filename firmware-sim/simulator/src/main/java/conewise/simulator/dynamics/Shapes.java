package conewise.simulator.dynamics;

/** Checks of the shape of matrices. */
final class Shapes {
  private Shapes() {}

  static void check(String name, double[][] matrix, int rows, int columns) {
    boolean fits = matrix.length == rows;
    for (double[] row : matrix) {
      fits &= row.length == columns;
    }
    if (!fits) {
      throw new IllegalArgumentException(
          "Matrix " + name + " must have " + rows + " rows of " + columns + " values.");
    }
  }
}
