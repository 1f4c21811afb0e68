package selvage.color;

/**
 * Sums of a function times a cubic spline, as weights of the spline's values. A spline is linear in
 * the values that it runs through, so its sum with any function is a weighted sum of them. The
 * spline is "not-a-knot": its third derivative has no step at the second and the last but one node.
 */
final class SplineWeights {
  private SplineWeights() {}

  /**
   * The matrix whose product with the second derivatives at the nodes is the right-hand side of
   * {@link #differences}.
   *
   * @param nodes rising, at least four
   */
  static double[][] curvatures(double[] nodes) {
    int n = nodes.length;
    double[][] matrix = new double[n][n];
    for (int i = 1; i < n - 1; i++) {
      double before = nodes[i] - nodes[i - 1];
      double after = nodes[i + 1] - nodes[i];
      matrix[i][i - 1] = before;
      matrix[i][i] = 2 * (before + after);
      matrix[i][i + 1] = after;
    }
    notAKnot(matrix[0], 0, nodes[1] - nodes[0], nodes[2] - nodes[1]);
    notAKnot(matrix[n - 1], n - 3, nodes[n - 2] - nodes[n - 3], nodes[n - 1] - nodes[n - 2]);
    return matrix;
  }

  private static void notAKnot(double[] row, int at, double first, double second) {
    row[at] = second;
    row[at + 1] = -(first + second);
    row[at + 2] = first;
  }

  /**
   * The weights w with Σ w·value = Σ function(x)·spline(x). Outside the nodes the spline holds its
   * end values.
   *
   * @param nodes rising
   * @param matrix {@link #curvatures} of the nodes
   * @param x where the function is known
   * @param function by {@code x}
   */
  static double[] of(double[] nodes, double[][] matrix, double[] x, double[] function) {
    int n = nodes.length;
    double[] weights = new double[n];
    double[] ofCurvature = new double[n];
    for (int k = 0; k < x.length; k++) {
      if (x[k] <= nodes[0]) {
        weights[0] += function[k];
      } else if (x[k] >= nodes[n - 1]) {
        weights[n - 1] += function[k];
      } else {
        int i = interval(nodes, x[k]);
        double width = nodes[i + 1] - nodes[i];
        double left = (nodes[i + 1] - x[k]) / width;
        double right = 1 - left;
        weights[i] += function[k] * left;
        weights[i + 1] += function[k] * right;
        double part = width * width / 6;
        ofCurvature[i] += function[k] * part * (left * left * left - left);
        ofCurvature[i + 1] += function[k] * part * (right * right * right - right);
      }
    }
    differences(nodes, solvedTransposed(matrix, ofCurvature), weights);
    return weights;
  }

  private static int interval(double[] nodes, double x) {
    int i = 0;
    while (nodes[i + 1] <= x) {
      i++;
    }
    return i;
  }

  /** Adds the second differences' share: six times the step of slopes at each inner node. */
  private static void differences(double[] nodes, double[] factor, double[] weights) {
    for (int i = 1; i < nodes.length - 1; i++) {
      double before = 6 / (nodes[i] - nodes[i - 1]);
      double after = 6 / (nodes[i + 1] - nodes[i]);
      weights[i - 1] += factor[i] * before;
      weights[i] -= factor[i] * (before + after);
      weights[i + 1] += factor[i] * after;
    }
  }

  /** Solves Aᵀ·y = b by elimination with pivots. */
  private static double[] solvedTransposed(double[][] matrix, double[] b) {
    int n = b.length;
    double[][] a = new double[n][n + 1];
    for (int row = 0; row < n; row++) {
      for (int column = 0; column < n; column++) {
        a[row][column] = matrix[column][row];
      }
      a[row][n] = b[row];
    }
    for (int pivot = 0; pivot < n; pivot++) {
      int best = pivot;
      for (int row = pivot + 1; row < n; row++) {
        best = Math.abs(a[row][pivot]) > Math.abs(a[best][pivot]) ? row : best;
      }
      double[] swap = a[pivot];
      a[pivot] = a[best];
      a[best] = swap;
      for (int row = pivot + 1; row < n; row++) {
        double factor = a[row][pivot] / a[pivot][pivot];
        if (factor != 0) {
          for (int column = pivot; column <= n; column++) {
            a[row][column] -= factor * a[pivot][column];
          }
        }
      }
    }
    double[] y = new double[n];
    for (int row = n - 1; row >= 0; row--) {
      double sum = a[row][n];
      for (int column = row + 1; column < n; column++) {
        sum -= a[row][column] * y[column];
      }
      y[row] = sum / a[row][row];
    }
    return y;
  }
}
