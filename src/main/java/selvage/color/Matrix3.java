package selvage.color;

/** Matrices of 3 × 3, by rows. */
final class Matrix3 {
  private Matrix3() {}

  static double[] apply(double[][] m, double[] v) {
    double[] result = new double[3];
    for (int row = 0; row < 3; row++) {
      result[row] = m[row][0] * v[0] + m[row][1] * v[1] + m[row][2] * v[2];
    }
    return result;
  }

  static double[][] product(double[][] a, double[][] b) {
    double[][] result = new double[3][3];
    for (int row = 0; row < 3; row++) {
      for (int column = 0; column < 3; column++) {
        for (int i = 0; i < 3; i++) {
          result[row][column] += a[row][i] * b[i][column];
        }
      }
    }
    return result;
  }

  /** The inverse by cofactors. */
  static double[][] inverse(double[][] m) {
    double[][] result = new double[3][3];
    double determinant = 0;
    for (int row = 0; row < 3; row++) {
      int r1 = (row + 1) % 3;
      int r2 = (row + 2) % 3;
      for (int column = 0; column < 3; column++) {
        int c1 = (column + 1) % 3;
        int c2 = (column + 2) % 3;
        result[column][row] = m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
      }
      determinant += m[row][0] * result[0][row];
    }
    for (double[] line : result) {
      for (int i = 0; i < 3; i++) {
        line[i] /= determinant;
      }
    }
    return result;
  }
}
