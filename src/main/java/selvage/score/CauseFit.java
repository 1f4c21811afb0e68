package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.fitting.leastsquares.ValueAndJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;

/**
 * Fits the causes of a {@link PrintModel} to errors, by non-linear least squares.
 *
 * <p>All causes are fitted first, held weakly near nothing, so that the choice of the needed ones
 * ({@link CauseSelection}) is made where the model is nearly straight; the chosen ones are then
 * fitted alone, and the choice is made once more from there.
 */
final class CauseFit {
  private static final double[] TONE = {0.05};
  private static final double[] DENSITY = {0.10};
  private static final double[] LAB = {2, 2, 2};
  private static final double[] RADIANS = {0.03};

  /** Pull towards nothing in the first fit, in ΔE*ab an axis for one scale of a parameter. */
  private static final double PULL = 0.15;

  /** The same where only the chosen causes are fitted: hardly any. */
  private static final double LEAST_PULL = 1e-3;

  /** Relative change of the misfit at which a fit is done that only the choice rests on. */
  private static final double COARSE = 1e-3;

  /** The same for the fit that is reported. */
  private static final double FINE = 1e-5;

  private static final int ROUNDS = 3;

  private final PrintModel model;
  private final double[] tints;
  private final double[] errors;
  private final double[] weights; // a row
  private final double[] sound;
  private final double[] scales;
  private final CauseSlopes slopes;
  private final Quantiles quantiles;
  private final int columns;
  private final int rows;

  /**
   * A fit.
   *
   * @param tints row by row, as {@link PrintModel#tints} gives them
   * @param errors reading less aim: ΔL*, Δa*, Δb* a row
   * @param weights how much a row counts, 0 or more
   * @param quantiles for the choice of causes
   */
  CauseFit(
      PrintModel model, double[] tints, double[] errors, double[] weights, Quantiles quantiles) {
    this.model = model;
    this.tints = tints;
    this.errors = errors;
    this.weights = weights;
    this.columns = model.inks().size();
    this.rows = weights.length;
    this.sound = model.print(new double[model.parameters()], tints);
    this.scales = scales(model);
    this.slopes = new CauseSlopes(model, tints, weights, scales);
    this.quantiles = quantiles;
  }

  private static double[] scales(PrintModel model) {
    double[] scales = new double[model.parameters()];
    for (int i = 0; i < model.causes().size(); i++) {
      double[] own =
          switch (model.causes().get(i).kind()) {
            case TONE -> TONE;
            case DENSITY -> DENSITY;
            case HUE -> RADIANS;
            case PAPER, CAST, RECIPE -> LAB;
          };
      System.arraycopy(own, 0, scales, model.offset(i), own.length);
    }
    return scales;
  }

  /** Chooses causes and fits them. */
  CauseFitResult fit() {
    int[][] groups = groups();
    int[] all = Arrays.stream(groups).flatMapToInt(Arrays::stream).toArray();
    double[] at = solve(new double[scales.length], all, PULL, COARSE);
    List<Integer> chosen = List.of();
    for (int round = 0; round < ROUNDS; round++) {
      List<Integer> before = chosen;
      chosen =
          new CauseSelection(equations(at, all), positions(groups), observations(), quantiles)
              .choose();
      if (chosen.equals(before) && round > 0) {
        break;
      }
      at = fitted(at, chosen, groups);
    }
    return result(chosen, groups, at);
  }

  /** Fits these causes, no others. */
  double[] fitted(List<Integer> chosen) {
    return fitted(new double[scales.length], chosen, groups());
  }

  /** Beginning from these parameters; those that are not chosen become 0. */
  private double[] fitted(double[] from, List<Integer> chosen, int[][] groups) {
    int[] free = chosen.stream().flatMapToInt(i -> Arrays.stream(groups[i])).toArray();
    return free.length == 0 ? new double[scales.length] : solve(from, free, LEAST_PULL, FINE);
  }

  private CauseFitResult result(List<Integer> chosen, int[][] groups, double[] at) {
    int[] free = chosen.stream().flatMapToInt(i -> Arrays.stream(groups[i])).toArray();
    NormalEquations equations = equations(at, free);
    int[] every = new int[free.length];
    for (int i = 0; i < every.length; i++) {
      every[i] = i;
    }
    double[] misfit = misfit(at);
    double rest = 0;
    double total = 0;
    for (int i = 0; i < misfit.length; i++) {
      rest += misfit[i] * misfit[i];
      double error = weights[i / 3] * errors[i];
      total += error * error;
    }
    double variance = rest / Math.max(1, observations() - free.length);
    double[] deviations = equations.inverseDiagonal(every);
    double[] uncertainties = new double[scales.length];
    for (int i = 0; i < free.length; i++) {
      uncertainties[free[i]] = Math.sqrt(variance * deviations[i]) * scales[free[i]];
    }
    double[] shares = new double[chosen.size()];
    double linearRest = equations.rest(every);
    int from = 0;
    for (int i = 0; i < shares.length; i++) {
      int size = groups[chosen.get(i)].length;
      int[] others = new int[free.length - size];
      for (int k = 0, n = 0; k < free.length; k++) {
        if (k < from || k >= from + size) {
          others[n++] = k;
        }
      }
      from += size;
      shares[i] =
          total > 0 ? Math.min(1, Math.max(0, (equations.rest(others) - linearRest) / total)) : 0;
    }
    return new CauseFitResult(
        chosen,
        at,
        uncertainties,
        shares,
        total > 0 ? rest / total : 0,
        observations() - free.length);
  }

  private int observations() {
    int count = 0;
    for (double weight : weights) {
      count += weight > 0 ? 3 : 0;
    }
    return count;
  }

  /** The free parameters of each cause; none where no patch could show it. */
  private int[][] groups() {
    int[][] groups = new int[model.causes().size()][];
    for (int i = 0; i < groups.length; i++) {
      Cause cause = model.causes().get(i);
      int size = shows(cause) ? cause.kind().parameters() : 0;
      groups[i] = new int[size];
      for (int k = 0; k < size; k++) {
        groups[i][k] = model.offset(i) + k;
      }
    }
    return groups;
  }

  private boolean shows(Cause cause) {
    if (cause.ink().isEmpty()) {
      return true;
    }
    int ink = model.inkOf(cause);
    for (int row = 0; row < rows; row++) {
      double t = tints[row * columns + ink];
      boolean shown = cause.kind() == Cause.Kind.TONE ? t > 0.02 && t < 0.98 : t > 0.4;
      if (shown && weights[row] > 0) {
        return true;
      }
    }
    return false;
  }

  private static int[][] positions(int[][] groups) {
    int[][] positions = new int[groups.length][];
    int at = 0;
    for (int i = 0; i < groups.length; i++) {
      positions[i] = new int[groups[i].length];
      for (int k = 0; k < groups[i].length; k++) {
        positions[i][k] = at++;
      }
    }
    return positions;
  }

  /** Weighed errors less what the causes account for. */
  private double[] misfit(double[] at) {
    double[] misfit = model.print(at, tints);
    for (int i = 0; i < misfit.length; i++) {
      misfit[i] = weights[i / 3] * (errors[i] - (misfit[i] - sound[i]));
    }
    return misfit;
  }

  /** The problem as a straight one about these parameters, in scales. */
  private NormalEquations equations(double[] at, int[] free) {
    double[][] jacobian = slopes.of(at, free);
    double[] target = misfit(at);
    for (int k = 0; k < free.length; k++) {
      double u = at[free[k]] / scales[free[k]];
      for (int i = 0; i < target.length && u != 0; i++) {
        target[i] += u * jacobian[k][i];
      }
    }
    return new NormalEquations(jacobian, target);
  }

  private double[] solve(double[] from, int[] free, double pull, double tolerance) {
    double[] start = new double[free.length];
    for (int k = 0; k < free.length; k++) {
      start[k] = from[free[k]] / scales[free[k]];
    }
    double[] target = new double[errors.length + free.length];
    for (int i = 0; i < errors.length; i++) {
      target[i] = weights[i / 3] * errors[i];
    }
    LeastSquaresSearch search = new LeastSquaresSearch(tolerance, 10 * tolerance, 60, 25);
    return parameters(
        search.from(start, target, new Model(free, pull), CauseFit::bounded), free);
  }

  /** All parameters of the model, of the free ones in scales. */
  private double[] parameters(double[] scaled, int[] free) {
    double[] at = new double[scales.length];
    for (int k = 0; k < free.length; k++) {
      at[free[k]] = scaled[k] * scales[free[k]];
    }
    return at;
  }

  /** Twelve scales are more than any press that still prints. */
  private static RealVector bounded(RealVector point) {
    return point.map(value -> Math.max(-12, Math.min(12, value)));
  }

  /** Ids by row of those that lie far off what these parameters account for. */
  List<Integer> odd(double[] at, double least) {
    double[] misfit = misfit(at);
    double[] sizes = new double[rows];
    for (int row = 0; row < rows; row++) {
      sizes[row] =
          Math.sqrt(
              misfit[3 * row] * misfit[3 * row]
                  + misfit[3 * row + 1] * misfit[3 * row + 1]
                  + misfit[3 * row + 2] * misfit[3 * row + 2]);
    }
    double[] sorted = sizes.clone();
    Arrays.sort(sorted);
    double limit = Math.max(least, 4 * sorted[sorted.length / 2]);
    List<Integer> odd = new ArrayList<>();
    for (int row = 0; row < rows; row++) {
      if (sizes[row] > limit) {
        odd.add(row);
      }
    }
    return odd;
  }

  /** The print as a function of the free parameters, in scales, with the pull as further rows. */
  final class Model implements ValueAndJacobianFunction {
    private final int[] free;
    private final double pull;

    Model(int[] free, double pull) {
      this.free = free;
      this.pull = pull;
    }

    @Override
    public Pair<RealVector, RealMatrix> value(RealVector point) {
      double[] scaled = point.toArray();
      return new Pair<>(computeValue(scaled), computeJacobian(scaled));
    }

    @Override
    public RealVector computeValue(double[] scaled) {
      double[] printed = model.print(parameters(scaled, free), tints);
      double[] value = new double[printed.length + free.length];
      for (int i = 0; i < printed.length; i++) {
        value[i] = weights[i / 3] * (printed[i] - sound[i]);
      }
      for (int k = 0; k < free.length; k++) {
        value[printed.length + k] = pull * scaled[k];
      }
      return new ArrayRealVector(value, false);
    }

    @Override
    public RealMatrix computeJacobian(double[] scaled) {
      double[][] columnwise = slopes.of(parameters(scaled, free), free);
      double[][] matrix = new double[errors.length + free.length][free.length];
      for (int k = 0; k < free.length; k++) {
        for (int i = 0; i < errors.length; i++) {
          matrix[i][k] = columnwise[k][i];
        }
        matrix[errors.length + k][k] = pull;
      }
      return new Array2DRowRealMatrix(matrix, false);
    }
  }
}
