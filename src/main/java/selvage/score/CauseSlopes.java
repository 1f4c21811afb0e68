package selvage.score;

import java.util.Arrays;
import selvage.score.Cause.Kind;

/**
 * How the colours of a print follow the parameters of its causes: the Jacobian of {@link
 * PrintModel}. Cast and hue stand in closed form; the others are differences over a small step,
 * made of the rows alone that a parameter reaches, from the stage of the model on where it acts.
 */
final class CauseSlopes {
  /** Of a parameter's scale, for differences. */
  private static final double STEP = 0.1;

  private final PrintModel model;
  private final double[] tints;
  private final double[] weights; // a row
  private final double[] scales; // a parameter
  private final int columns;
  private final int rows;
  private final Kind[] kinds; // a parameter
  private final int[] axes; // a parameter: which of its cause's
  private final int[] inks; // a parameter: the ink that it moves, or −1
  private final int[][] touched; // an ink: the rows that it prints in
  private final int hueAt;

  /**
   * For rows of tints.
   *
   * @param tints as {@link PrintModel#tints} gives them
   * @param weights how much a row counts
   * @param scales of each parameter: slopes are for a change by one of them
   */
  CauseSlopes(PrintModel model, double[] tints, double[] weights, double[] scales) {
    this.model = model;
    this.tints = tints;
    this.weights = weights;
    this.scales = scales;
    this.columns = model.inks().size();
    this.rows = weights.length;
    this.kinds = new Kind[scales.length];
    this.axes = new int[scales.length];
    this.inks = new int[scales.length];
    int hue = 0;
    for (int i = 0; i < model.causes().size(); i++) {
      Cause cause = model.causes().get(i);
      hue = cause.kind() == Kind.HUE ? model.offset(i) : hue;
      for (int k = 0; k < cause.kind().parameters(); k++) {
        kinds[model.offset(i) + k] = cause.kind();
        axes[model.offset(i) + k] = k;
        inks[model.offset(i) + k] = model.inkOf(cause);
      }
    }
    this.hueAt = hue;
    this.touched = new int[columns][];
    for (int ink = 0; ink < columns; ink++) {
      touched[ink] = touched(ink);
    }
  }

  private int[] touched(int ink) {
    int[] found = new int[rows];
    int count = 0;
    for (int row = 0; row < rows; row++) {
      if (tints[row * columns + ink] > 0 && weights[row] > 0) {
        found[count++] = row;
      }
    }
    return Arrays.copyOf(found, count);
  }

  /** A column a free parameter: the change of each weighed colour for one scale of it. */
  double[][] of(double[] at, int[] free) {
    double[] moved = model.moved(at, tints);
    double[] aims = model.aims(at, moved);
    double[] base = model.finished(at, moved, aims);
    double[][] slopes = new double[free.length][];
    for (int k = 0; k < free.length; k++) {
      slopes[k] = column(at, free[k], moved, aims, base);
    }
    return slopes;
  }

  private double[] column(
      double[] at, int parameter, double[] moved, double[] aims, double[] base) {
    double[] column = new double[3 * rows];
    double scale = scales[parameter];
    if (kinds[parameter] == Kind.CAST) {
      for (int row = 0; row < rows; row++) {
        column[3 * row + axes[parameter]] = weights[row] * scale;
      }
      return column;
    }
    if (kinds[parameter] == Kind.HUE) {
      for (int row = 0; row < rows; row++) {
        double a = base[3 * row + 1] - at[hueAt - 2];
        double b = base[3 * row + 2] - at[hueAt - 1];
        column[3 * row + 1] = -weights[row] * scale * b;
        column[3 * row + 2] = weights[row] * scale * a;
      }
      return column;
    }
    double[] other = at.clone();
    other[parameter] += STEP * scale;
    if (kinds[parameter] == Kind.PAPER) {
      double[] after = model.finished(other, moved, aims);
      for (int i = 0; i < after.length; i++) {
        column[i] = weights[i / 3] * (after[i] - base[i]) / STEP;
      }
      return column;
    }
    int[] some = touched[inks[parameter]];
    double[] after =
        switch (kinds[parameter]) {
          case TONE -> model.print(other, picked(tints, some, columns));
          case DENSITY ->
              model.finished(other, picked(moved, some, columns), picked(aims, some, 3));
          default -> {
            double[] rowsMoved = picked(moved, some, columns);
            yield model.finished(other, rowsMoved, model.aims(other, rowsMoved));
          }
        };
    for (int i = 0; i < some.length; i++) {
      int row = some[i];
      for (int axis = 0; axis < 3; axis++) {
        column[3 * row + axis] = weights[row] * (after[3 * i + axis] - base[3 * row + axis]) / STEP;
      }
    }
    return column;
  }

  private static double[] picked(double[] values, int[] rows, int width) {
    double[] picked = new double[rows.length * width];
    for (int i = 0; i < rows.length; i++) {
      System.arraycopy(values, rows[i] * width, picked, i * width, width);
    }
    return picked;
  }
}
