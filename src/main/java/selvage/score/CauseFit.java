package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

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

  /** Where shares sum to more, causes act against each other, and fewer may do as well. */
  private static final double OPPOSED = 1.5;

  /** The same where one is so many scales off. */
  private static final double FAR = 4;

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

  /** All causes together, held weakly near nothing. */
  double[] everything() {
    return everything(new double[scales.length]);
  }

  /** The same, beginning from these parameters. */
  double[] everything(double[] from) {
    return solve(from, flat(groups()), PULL, COARSE);
  }

  /** Chooses causes and fits them. */
  CauseFitResult fit() {
    return fit(everything());
  }

  /**
   * Chooses causes and fits them.
   *
   * @param everything all causes together, as the weights are now
   */
  CauseFitResult fit(double[] everything) {
    CauseFitResult found = chosen(everything);
    if (Arrays.stream(found.shares()).sum() <= OPPOSED && !isFar(found)) {
      return found;
    }
    CauseFitResult other = chosen(new double[scales.length]);
    return criterion(other) < criterion(found) ? other : found;
  }

  private boolean isFar(CauseFitResult found) {
    boolean isFar = false;
    for (int i = 0; i < scales.length; i++) {
      isFar |= Math.abs(found.parameters()[i]) > FAR * scales[i];
    }
    return isFar;
  }

  private double criterion(CauseFitResult found) {
    return CauseSelection.criterion(
        found.unexplained() * total(), observations() - found.freedom(), observations());
  }

  private CauseFitResult chosen(double[] from) {
    int[][] groups = groups();
    int[][] possible = groups(this::prints);
    int[][] positions = positions(possible);
    int[] all = flat(possible);
    int[][] candidates = new int[groups.length][];
    for (int i = 0; i < groups.length; i++) {
      candidates[i] = groups[i].length > 0 ? positions[i] : groups[i];
    }
    double[] at = from;
    double[][] jacobian = slopes.of(at, all);
    List<Integer> chosen = List.of();
    for (int round = 0; round < ROUNDS; round++) {
      List<Integer> before = chosen;
      NormalEquations equations = new NormalEquations(jacobian, target(at, all, jacobian));
      chosen = new CauseSelection(equations, candidates, observations(), quantiles).choose();
      if (chosen.equals(before) && round > 0) {
        break;
      }
      at = fitted(at, chosen, groups);
      jacobian = slopes.of(at, all);
    }
    return result(chosen, possible, at, new NormalEquations(jacobian, misfit(at)));
  }

  private static int[] flat(int[][] groups) {
    return Arrays.stream(groups).flatMapToInt(Arrays::stream).toArray();
  }

  /** How far each row lies from the others where all causes are fitted. */
  Deletion deletion(double[] everything) {
    return deletion(everything, flat(groups()), PULL);
  }

  /** The same where the chosen ones are. */
  Deletion deletion(CauseFitResult result) {
    int[][] groups = groups();
    int[] free = picked(result.chosen(), groups);
    return deletion(result.parameters(), free, LEAST_PULL);
  }

  private Deletion deletion(double[] at, int[] free, double pull) {
    double[][] jacobian = slopes.of(at, free);
    return new Deletion(
        jacobian, pull, target(at, free, jacobian), accompanied(), weights, quantiles);
  }

  /** Fits these causes, no others. */
  double[] fitted(List<Integer> chosen) {
    return fitted(new double[scales.length], chosen, groups());
  }

  /** Beginning from these parameters; those that are not chosen become 0. */
  private double[] fitted(double[] from, List<Integer> chosen, int[][] groups) {
    int[] free = picked(chosen, groups);
    return free.length == 0 ? new double[scales.length] : solve(from, free, LEAST_PULL, FINE);
  }

  private CauseFitResult result(
      List<Integer> chosen, int[][] groups, double[] at, NormalEquations equations) {
    int[][] positions = positions(groups);
    int[] free = picked(chosen, groups);
    double rest = 0;
    for (double left : misfit(at)) {
      rest += left * left;
    }
    double total = total();
    int freedom = observations() - free.length;
    double[] variances = equations.inverseDiagonal(picked(chosen, positions));
    double[] deviations = new double[scales.length];
    for (int i = 0; i < free.length; i++) {
      deviations[free[i]] = Math.sqrt(rest / Math.max(1, freedom) * variances[i]) * scales[free[i]];
    }
    CauseEvidence evidence = new CauseEvidence(equations, positions, chosen, rest, total, freedom);
    double[] shares = new double[chosen.size()];
    List<List<Integer>> rivals = new ArrayList<>();
    for (int i = 0; i < shares.length; i++) {
      int cause = chosen.get(i);
      double[] without = at.clone();
      for (int parameter : groups[cause]) {
        without[parameter] = 0;
      }
      double[] misfit = misfit(without);
      shares[i] = evidence.share(cause, misfit);
      rivals.add(evidence.rivals(cause, misfit));
    }
    return new CauseFitResult(
        chosen, at, deviations, shares, rivals, total > 0 ? rest / total : 0, freedom);
  }

  private static int[] picked(List<Integer> chosen, int[][] groups) {
    return chosen.stream().flatMapToInt(i -> Arrays.stream(groups[i])).toArray();
  }

  private double total() {
    double total = 0;
    for (int i = 0; i < errors.length; i++) {
      double error = weights[i / 3] * errors[i];
      total += error * error;
    }
    return total;
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
    return groups(this::shows);
  }

  private int[][] groups(Predicate<Cause> taken) {
    int[][] groups = new int[model.causes().size()][];
    for (int i = 0; i < groups.length; i++) {
      Cause cause = model.causes().get(i);
      int size = taken.test(cause) ? cause.kind().parameters() : 0;
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

  /** Whether a cause moves some patch, though perhaps too little to be found by it. */
  private boolean prints(Cause cause) {
    int ink = model.inkOf(cause);
    boolean prints = ink < 0;
    for (int row = 0; row < rows && !prints; row++) {
      prints = tints[row * columns + ink] > 0 && weights[row] > 0;
    }
    return prints;
  }

  /**
   * Rows whose every ink prints in another row too: nothing else says what an only one should be.
   */
  private boolean[] accompanied() {
    int[] printed = new int[columns];
    for (int i = 0; i < tints.length; i++) {
      printed[i % columns] += tints[i] > 0 && weights[i / columns] > 0 ? 1 : 0;
    }
    boolean[] accompanied = new boolean[rows];
    Arrays.fill(accompanied, true);
    for (int i = 0; i < tints.length; i++) {
      if (tints[i] > 0 && printed[i % columns] < 2) {
        accompanied[i / columns] = false;
      }
    }
    return accompanied;
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

  /** What the parameters, in scales, should give in a straight problem about these. */
  private double[] target(double[] at, int[] free, double[][] jacobian) {
    double[] target = misfit(at);
    for (int k = 0; k < free.length; k++) {
      double u = at[free[k]] / scales[free[k]];
      for (int i = 0; i < target.length && u != 0; i++) {
        target[i] += u * jacobian[k][i];
      }
    }
    return target;
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
    return parameters(search.from(start, target, new Model(free, pull), CauseFit::bounded), free);
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

  /** The print as a function of the free parameters, in scales, with the pull as further rows. */
  final class Model implements PointModel {
    private final int[] free;
    private final double pull;

    Model(int[] free, double pull) {
      this.free = free;
      this.pull = pull;
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
