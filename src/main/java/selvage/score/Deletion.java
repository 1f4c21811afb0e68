package selvage.score;

import java.util.Arrays;

/**
 * How far each patch lies from what all the others say, in a fit that is straight about its
 * solution: the patch is left out, the rest fitted anew (deletion residuals [cook1982]).
 */
final class Deletion {
  /** Median of the sum of three squares of unit variance (chi squared, three degrees). */
  private static final double MEDIAN = 2.366;

  /** Noise is never taken for less, in ΔE*ab an axis. */
  private static final double LEAST_DEVIATION = 0.1;

  /** Freedom below which no patch can be told from a cause. */
  private static final double LEAST_FREEDOM = 6;

  /** Keeps what a patch alone determines from being blown up out of nothing. */
  private static final double ALONE = 0.01;

  private final Quantiles quantiles;
  private final double[] drops; // a row: by how much the sum of squares falls without it
  private final double[] sizes; // a row: its distance from what the others say
  private final boolean[] judged;
  private final boolean[] free; // a row: whether the others say most of it
  private final double sum;
  private final double freedom;

  /**
   * Leaves out each patch in turn.
   *
   * @param slopes a column a parameter, three weighed values a patch
   * @param pull on each parameter towards nothing
   * @param target three weighed values a patch, which the parameters should give
   * @param judged a patch: whether it counts and may be odd
   * @param weights a patch; of weight 0 are those that are out already
   */
  Deletion(
      double[][] slopes,
      double pull,
      double[] target,
      boolean[] judged,
      double[] weights,
      Quantiles quantiles) {
    this.quantiles = quantiles;
    this.judged = judged;
    int rows = weights.length;
    this.drops = new double[rows];
    this.sizes = new double[rows];
    this.free = new boolean[rows];
    double[][] lower = lower(slopes, pull);
    double[] misfit = misfit(slopes, lower, target);
    double left = 0;
    double squares = 0;
    for (int row = 0; row < rows; row++) {
      if (weights[row] > 0) {
        left += leaveOut(row, slopes, lower, misfit);
        for (int i = 3 * row; i < 3 * row + 3; i++) {
          squares += misfit[i] * misfit[i];
        }
      }
    }
    this.sum = squares;
    this.freedom = left;
  }

  /** The Cholesky factor of the normal equations. */
  private static double[][] lower(double[][] slopes, double pull) {
    int size = slopes.length;
    double[][] lower = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        double value = i == j ? pull * pull : 0;
        for (int k = 0; k < slopes[i].length; k++) {
          value += slopes[i][k] * slopes[j][k];
        }
        for (int k = 0; k < j; k++) {
          value -= lower[i][k] * lower[j][k];
        }
        lower[i][j] = i == j ? Math.sqrt(Math.max(value, 1e-12)) : value / lower[j][j];
      }
    }
    return lower;
  }

  /** What the straight fit leaves of the target. */
  private static double[] misfit(double[][] slopes, double[][] lower, double[] target) {
    int size = slopes.length;
    double[] solved = new double[size];
    for (int i = 0; i < size; i++) {
      for (int k = 0; k < target.length; k++) {
        solved[i] += slopes[i][k] * target[k];
      }
      for (int k = 0; k < i; k++) {
        solved[i] -= lower[i][k] * solved[k];
      }
      solved[i] /= lower[i][i];
    }
    double[] misfit = target.clone();
    for (int i = size - 1; i >= 0; i--) {
      for (int k = i + 1; k < size; k++) {
        solved[i] -= lower[k][i] * solved[k];
      }
      solved[i] /= lower[i][i];
      for (int k = 0; k < target.length; k++) {
        misfit[k] -= solved[i] * slopes[i][k];
      }
    }
    return misfit;
  }

  /** Leaves out a patch; returns its part of the freedom that the fit has left. */
  private double leaveOut(int row, double[][] slopes, double[][] lower, double[] misfit) {
    double[][] solved = new double[3][slopes.length];
    for (int axis = 0; axis < 3; axis++) {
      for (int i = 0; i < slopes.length; i++) {
        double value = slopes[i][3 * row + axis];
        for (int k = 0; k < i; k++) {
          value -= lower[i][k] * solved[axis][k];
        }
        solved[axis][i] = value / lower[i][i];
      }
    }
    double[][] rest = new double[3][3]; // the unit matrix less the patch's part of the hat matrix
    double trace = 0;
    for (int a = 0; a < 3; a++) {
      for (int b = 0; b < 3; b++) {
        rest[a][b] = a == b ? 1 : 0;
        for (int i = 0; i < slopes.length; i++) {
          rest[a][b] -= solved[a][i] * solved[b][i];
        }
      }
      trace += rest[a][a];
      rest[a][a] += ALONE;
    }
    double[] off = solve(rest, Arrays.copyOfRange(misfit, 3 * row, 3 * row + 3));
    for (int axis = 0; axis < 3; axis++) {
      drops[row] += off[axis] * misfit[3 * row + axis];
      sizes[row] += off[axis] * off[axis];
    }
    sizes[row] = Math.sqrt(sizes[row]);
    free[row] = trace > 1;
    return trace;
  }

  /** By Cramer's rule. */
  private static double[] solve(double[][] m, double[] right) {
    double[] cofactors = cross(m[1], m[2]);
    double determinant = dot(m[0], cofactors);
    double[] first = cross(m[2], m[0]);
    double[] second = cross(m[0], m[1]);
    double[] solved = new double[3];
    for (int i = 0; i < 3; i++) { // m is symmetric, its inverse too
      solved[i] =
          (cofactors[i] * right[0] + first[i] * right[1] + second[i] * right[2]) / determinant;
    }
    return solved;
  }

  private static double[] cross(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }

  private static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  /** How far a patch lies from what the others say, in ΔE*ab; 0 of one that is out. */
  double size(int row) {
    return sizes[row];
  }

  /**
   * The patch that lies oddest, where there is one: beyond what noise explains, its size judged by
   * the middle patch, so that a few odd ones do not hide each other.
   *
   * @param least ΔE*ab below which none is odd
   * @return its row, or −1
   */
  int oddest(double least) {
    double limit = 3 * Math.max(variance(), LEAST_DEVIATION * LEAST_DEVIATION) * level();
    int found = -1;
    for (int row = 0; row < drops.length; row++) {
      if (judged[row] && sizes[row] >= least && drops[row] > limit) {
        limit = drops[row];
        found = row;
      }
    }
    return freedom < LEAST_FREEDOM ? -1 : found;
  }

  /** Whether a patch is odd by the spread of all others, as large as it may be. */
  boolean isOdd(int row, double least) {
    double others = Math.max(0, sum - drops[row]) / Math.max(1, freedom - 3);
    double variance = Math.max(others, LEAST_DEVIATION * LEAST_DEVIATION);
    return sizes[row] >= least && drops[row] > 3 * variance * level();
  }

  private double level() {
    return quantiles.odd((int) Math.max(1, freedom - 3));
  }

  private double variance() {
    double[] sorted = new double[drops.length];
    int count = 0;
    for (int row = 0; row < drops.length; row++) {
      if (free[row]) {
        sorted[count++] = drops[row];
      }
    }
    if (count == 0) {
      return Double.POSITIVE_INFINITY;
    }
    Arrays.sort(sorted, 0, count);
    return sorted[count / 2] / MEDIAN;
  }
}
