package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import selvage.color.Correction;
import selvage.ink.Colorant;

/**
 * Finds the curves that undo causes: for each ink the tint to send, by way of the reverse of its
 * tone value change, a lower solid, and two bends; and, where a solid can't be reached with the ink
 * alone, a little of the process inks in proportion to the tint. All are fitted together to what
 * the model prints of the strip's mixtures and of each ink's ramp, in units of ΔE00; added inks are
 * charged for, so that they stay out where they help little.
 */
final class CurveFit {
  private static final int OWN = 3;
  private static final int ADDED = 4;
  private static final int PER_INK = OWN + ADDED;

  /** Tints of an ink's ramp beside the strip's own patches. */
  private static final int RAMP = 9;

  private static final double RAMP_WEIGHT = 0.4;

  /** Squared, in ΔE00² for a part of 1 of added ink. */
  private static final double CHARGE = 2;

  private static final double BEND_PULL = 1;
  private static final double STEP = 1e-3;
  private static final int POINTS = 20;
  private static final int PASSES = 4;
  private static final LeastSquaresSearch SEARCH = new LeastSquaresSearch(1e-4, 1e-4, 80, 25);

  /** From this part of its limit on, a patch gets more weight in the next pass. */
  private static final double NEAR = 0.6;

  private final PrintModel model;
  private final double[] cause;
  private final double[] tints;
  private final double[] limits;
  private final double[] weights;
  private final double[] goal;
  private final double inkLimit;
  private final int columns;
  private final boolean[] used;

  /**
   * A fit.
   *
   * @param cause the model's parameters to be undone
   * @param strip tints of the strip's mixtures
   * @param limits in ΔE00 on each of these
   * @param inkLimitPercent the most total ink, where a mixture's own has less
   */
  CurveFit(
      PrintModel model, double[] cause, double[] strip, double[] limits, double inkLimitPercent) {
    this.model = model;
    this.inkLimit = inkLimitPercent / 100;
    this.cause = cause;
    this.columns = model.inks().size();
    this.used = used(strip, columns);
    int ramps = 0;
    for (boolean one : used) {
      ramps += one ? RAMP : 0;
    }
    this.limits = limits;
    int rows = limits.length;
    this.tints = Arrays.copyOf(strip, strip.length + ramps * columns);
    this.weights = new double[rows + ramps];
    for (int row = 0; row < rows; row++) {
      weights[row] = 5 / limits[row];
    }
    for (int ink = 0; ink < columns; ink++) {
      for (int i = 1; i <= RAMP && used[ink]; i++) {
        tints[rows * columns + ink] = i / (RAMP + 1.0);
        weights[rows++] = RAMP_WEIGHT;
      }
    }
    this.goal = model.print(new double[model.parameters()], tints);
  }

  /** Which inks rows of tints print. */
  static boolean[] used(double[] tints, int columns) {
    boolean[] used = new boolean[columns];
    for (int i = 0; i < tints.length; i++) {
      used[i % columns] |= tints[i] > 0;
    }
    return used;
  }

  /** Curves to choose from: each set gives more weight to what the one before left near a limit. */
  List<List<Correction.Curve>> curves() {
    double[] start = new double[columns * PER_INK];
    for (int i = 0; i < start.length; i++) {
      int own = i % PER_INK;
      start[i] = own == 0 || own >= OWN ? 0.05 : 0;
    }
    double[] found = start;
    List<List<Correction.Curve>> sets = new ArrayList<>();
    for (int pass = 0; pass < PASSES; pass++) {
      found = solved(found);
      sets.add(curves(found));
      if (!stressed(found)) {
        break;
      }
    }
    return sets;
  }

  private List<Correction.Curve> curves(double[] at) {
    List<Correction.Curve> curves = new ArrayList<>();
    for (int ink = 0; ink < columns; ink++) {
      if (used[ink]) {
        curves.add(curve(at, ink));
      }
    }
    return curves;
  }

  private double[] solved(double[] start) {
    return SEARCH.from(start, new double[3 * weights.length + start.length], new Model());
  }

  /** Gives patches that come near their limits more weight; whether there are any. */
  private boolean stressed(double[] at) {
    double[] printed = model.print(cause, sent(at, tints));
    for (int i = 0; i < printed.length; i++) {
      printed[i] -= goal[i];
    }
    double[] scaled = new double[printed.length];
    boolean any = false;
    for (int row = 0; row < limits.length; row++) {
      PerceptualScale.scale(goal, printed, row, 1, scaled);
      double size =
          Math.sqrt(
              scaled[3 * row] * scaled[3 * row]
                  + scaled[3 * row + 1] * scaled[3 * row + 1]
                  + scaled[3 * row + 2] * scaled[3 * row + 2]);
      double strain = size / (NEAR * limits[row]);
      if (strain > 1) {
        any = true;
        weights[row] *= Math.min(3, Math.sqrt(1 + strain * strain));
      }
    }
    return any;
  }

  private Correction.Curve curve(double[] at, int ink) {
    List<Correction.Point> points = new ArrayList<>();
    double before = 0;
    for (int i = 0; i <= POINTS; i++) {
      double t = (double) i / POINTS;
      before = Math.max(before, i == 0 ? 0 : own(at, ink, t));
      List<Double> added = new ArrayList<>();
      for (int process = 0; process < ADDED; process++) {
        double part = added(at, ink, process) * t;
        added.add(part < 0.0015 * t ? 0 : rounded(part));
      }
      points.add(new Correction.Point(100 * t, rounded(before), added));
    }
    Colorant colorant = model.inks().get(ink);
    return new Correction.Curve(colorant, points);
  }

  private static double rounded(double fraction) {
    return Math.min(100, Math.round(1e4 * fraction) / 100.0);
  }

  /** The tint of the ink itself to send for a tint, 0 to 1. */
  private double own(double[] at, int ink, double t) {
    int from = ink * PER_INK;
    double solid = 1 - at[from] * at[from];
    double bend = 4 * t * (1 - t) * (at[from + 1] + at[from + 2] * (1 - 2 * t));
    return Math.max(0, Math.min(1, solid * reverse(cause[ink], t) + bend));
  }

  /** The x with x + 4·d·x·(1 − x) = t. */
  private static double reverse(double d, double t) {
    if (Math.abs(d) < 1e-6) {
      return t;
    }
    double b = 1 + 4 * d;
    double root = b * b - 16 * d * t; // (1 − 4d)² or more: below 0 by rounding alone
    return Math.min(1, Math.max(0, (b - Math.sqrt(Math.max(0, root))) / (8 * d)));
  }

  private static double added(double[] at, int ink, int process) {
    double root = process == ink ? 0 : at[ink * PER_INK + OWN + process];
    return Math.min(0.5, root * root);
  }

  /** What is sent for rows of tints. */
  private double[] sent(double[] at, double[] asked) {
    double[] sent = new double[asked.length];
    for (int row = 0; row < asked.length / columns; row++) {
      for (int ink = 0; ink < columns; ink++) {
        double t = asked[row * columns + ink];
        if (t > 0) {
          sent[row * columns + ink] += own(at, ink, t);
          for (int process = 0; process < ADDED; process++) {
            sent[row * columns + process] += t * added(at, ink, process);
          }
        }
      }
    }
    for (int row = 0; row < asked.length / columns; row++) {
      limit(asked, sent, row);
    }
    return sent;
  }

  /** Holds each ink to its solid and all together to the limit, as the correction itself does. */
  private void limit(double[] asked, double[] sent, int row) {
    double sum = 0;
    double own = 0;
    for (int i = row * columns; i < (row + 1) * columns; i++) {
      sent[i] = Math.min(1, sent[i]);
      sum += sent[i];
      own += asked[i];
    }
    double most = Math.max(inkLimit, own);
    for (int i = row * columns; i < (row + 1) * columns && sum > most; i++) {
      sent[i] *= most / sum;
    }
  }

  /** What is left of the causes, as a function of the curves' parameters. */
  final class Model implements PointModel {
    @Override
    public RealVector computeValue(double[] at) {
      int rows = weights.length;
      double[] value = new double[3 * rows + at.length];
      double[] printed = model.print(cause, sent(at, tints));
      for (int i = 0; i < printed.length; i++) {
        printed[i] -= goal[i];
      }
      for (int row = 0; row < rows; row++) {
        PerceptualScale.scale(goal, printed, row, weights[row], value);
      }
      for (int i = 0; i < at.length; i++) {
        value[3 * rows + i] = charge(i) * at[i];
      }
      return new ArrayRealVector(value, false);
    }

    @Override
    public RealMatrix computeJacobian(double[] at) {
      int rows = weights.length;
      double[] base = model.print(cause, sent(at, tints));
      double[][] jacobian = new double[3 * rows + at.length][at.length];
      double[] column = new double[3 * rows];
      for (int i = 0; i < at.length; i++) {
        int ink = i / PER_INK;
        jacobian[3 * rows + i][i] = charge(i);
        if (used[ink]) {
          double[] other = at.clone();
          other[i] += STEP;
          int[] touched = touched(ink);
          double[] some = new double[touched.length * columns];
          for (int k = 0; k < touched.length; k++) {
            System.arraycopy(tints, touched[k] * columns, some, k * columns, columns);
          }
          double[] after = model.print(cause, sent(other, some));
          double[] difference = new double[3 * rows];
          for (int k = 0; k < touched.length; k++) {
            for (int axis = 0; axis < 3; axis++) {
              int at3 = 3 * touched[k] + axis;
              difference[at3] = (after[3 * k + axis] - base[at3]) / STEP;
            }
            PerceptualScale.scale(goal, difference, touched[k], weights[touched[k]], column);
            for (int axis = 0; axis < 3; axis++) {
              jacobian[3 * touched[k] + axis][i] = column[3 * touched[k] + axis];
            }
          }
        }
      }
      return new Array2DRowRealMatrix(jacobian, false);
    }

    private int[] touched(int ink) {
      int[] touched = new int[weights.length];
      int count = 0;
      for (int row = 0; row < touched.length; row++) {
        if (tints[row * columns + ink] > 0) {
          touched[count++] = row;
        }
      }
      return Arrays.copyOf(touched, count);
    }

    private double charge(int parameter) {
      int own = parameter % PER_INK;
      return own >= OWN ? CHARGE : own == 0 ? 0.1 : BEND_PULL;
    }
  }
}
