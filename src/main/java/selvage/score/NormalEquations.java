package selvage.score;

/**
 * The normal equations of a linear least-squares problem, from which any choice of columns can be
 * solved.
 */
final class NormalEquations {
  /** Keeps columns that say the same from dividing by nothing. */
  private static final double JITTER = 1e-9;

  private final double[][] columns;
  private final double[][] gram;
  private final double[] moments;
  private final double total;

  /**
   * The equations of a problem.
   *
   * @param columns a column each, of one length
   * @param target as long as a column
   */
  NormalEquations(double[][] columns, double[] target) {
    this.columns = columns;
    gram = new double[columns.length][columns.length];
    moments = new double[columns.length];
    for (int i = 0; i < columns.length; i++) {
      for (int j = 0; j <= i; j++) {
        gram[i][j] = dot(columns[i], columns[j]);
        gram[j][i] = gram[i][j];
      }
      moments[i] = dot(columns[i], target);
    }
    total = dot(target, target);
  }

  private NormalEquations(NormalEquations same, double[] target) {
    columns = same.columns;
    gram = same.gram;
    moments = new double[columns.length];
    for (int i = 0; i < columns.length; i++) {
      moments[i] = dot(columns[i], target);
    }
    total = dot(target, target);
  }

  /** The same columns for another target. */
  NormalEquations with(double[] target) {
    return new NormalEquations(this, target);
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  /** Whether a column says anything. */
  boolean speaks(int column) {
    return gram[column][column] > JITTER;
  }

  /** The sum of squares that the chosen columns leave. */
  double rest(int[] chosen) {
    double[][] lower = cholesky(chosen);
    double explained = 0;
    double[] solved = new double[chosen.length];
    for (int i = 0; i < chosen.length; i++) {
      double sum = moments[chosen[i]];
      for (int k = 0; k < i; k++) {
        sum -= lower[i][k] * solved[k];
      }
      solved[i] = sum / lower[i][i];
      explained += solved[i] * solved[i];
    }
    return Math.max(0, total - explained);
  }

  /** The diagonal of the inverse of the chosen columns' Gram matrix. */
  double[] inverseDiagonal(int[] chosen) {
    double[][] lower = cholesky(chosen);
    double[] diagonal = new double[chosen.length];
    double[] solved = new double[chosen.length];
    for (int unit = 0; unit < chosen.length; unit++) {
      double sum = 0;
      for (int i = unit; i < chosen.length; i++) {
        double value = i == unit ? 1 : 0;
        for (int k = unit; k < i; k++) {
          value -= lower[i][k] * solved[k];
        }
        solved[i] = value / lower[i][i];
        sum += solved[i] * solved[i];
      }
      diagonal[unit] = sum;
    }
    return diagonal;
  }

  private double[][] cholesky(int[] chosen) {
    double[][] lower = new double[chosen.length][chosen.length];
    for (int i = 0; i < chosen.length; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = gram[chosen[i]][chosen[j]];
        for (int k = 0; k < j; k++) {
          sum -= lower[i][k] * lower[j][k];
        }
        lower[i][j] =
            i == j
                ? Math.sqrt(Math.max(sum, JITTER * (1 + gram[chosen[i]][chosen[i]])))
                : sum / lower[j][j];
      }
    }
    return lower;
  }
}
