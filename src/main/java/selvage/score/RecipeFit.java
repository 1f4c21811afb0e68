package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.fitting.leastsquares.ValueAndJacobianFunction;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;
import selvage.color.ColorDifference;
import selvage.color.Correction;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;

/**
 * Finds the tints to send for one mixture, so that a print with causes at work gives the colour
 * that it has without them: its own inks and the process inks, held near to what the curves give.
 */
final class RecipeFit {
  /** In ΔE00 for a part of 1 of ink sent otherwise than by the curves. */
  private static final double PULL = 0.7;

  /** What a mixture far from the curves' own must gain, in ΔE00. */
  private static final double WORTH = 0.7;

  /**
   * Where the search begins too: with so much of the curves' mixture, the rest of one of process
   * inks alone. A little of the wrong process inks makes a colour worse before more of the right
   * ones makes it better, so that a search from the curves' mixture stays there.
   */
  private static final double[] SHARES = {0.75, 0.5};

  private static final double STEP = 1e-3;
  private static final LeastSquaresSearch SEARCH = new LeastSquaresSearch(1e-6, 1e-5, 80, 30);

  private final PrintModel model;
  private final double[] cause;
  private final double inkLimitPercent;

  /**
   * For prints with these causes.
   *
   * @param cause the model's parameters
   * @param inkLimitPercent the most total ink, where the mixture's own has less
   */
  RecipeFit(PrintModel model, double[] cause, double inkLimitPercent) {
    this.model = model;
    this.cause = cause;
    this.inkLimitPercent = inkLimitPercent;
  }

  /**
   * The mixture to send.
   *
   * @param mixture asked for
   * @param byCurves what the curves give for it
   */
  InkMixture of(InkMixture mixture, InkMixture byCurves) {
    double[] goal = model.print(new double[model.parameters()], model.tints(List.of(mixture)));
    double[] start = model.tints(List.of(byCurves));
    List<Integer> free = new ArrayList<>();
    for (int ink = 0; ink < start.length; ink++) {
      Colorant colorant = model.inks().get(ink);
      if (!colorant.isSpot() || mixture.units(colorant) > 0) {
        free.add(ink);
      }
    }
    double[] at = solve(goal, start, start, free);
    double[] process = process(goal, start.length);
    double least = left(goal, at) - WORTH;
    for (double share : SHARES) {
      double[] first = start.clone();
      for (int ink : free) {
        first[ink] = share * start[ink] + (1 - share) * process[ink];
      }
      double[] other = solve(goal, start, first, free);
      double left = left(goal, other);
      if (left < least) {
        at = other;
        least = left;
      }
    }
    Map<Colorant, Double> percents = new TreeMap<>();
    for (int ink = 0; ink < at.length; ink++) {
      double percent = Math.round(1e4 * Math.min(1, Math.max(0, at[ink]))) / 100.0;
      if (percent >= 0.2 || mixture.units(model.inks().get(ink)) > 0) {
        percents.put(model.inks().get(ink), percent);
      }
    }
    return Correction.limited(percents, Math.max(inkLimitPercent, mixture.totalPercent()));
  }

  /** A mixture of process inks alone that comes near to the goal. */
  private double[] process(double[] goal, int inks) {
    double[] first = new double[inks];
    Arrays.fill(first, 0, Colorant.PROCESS.size() - 1, 0.5);
    return clipped(solve(goal, first, first, List.of(0, 1, 2, 3)));
  }

  private double left(double[] goal, double[] sent) {
    double[] printed = model.print(cause, clipped(sent));
    return ColorDifference.de00(
        new Lab(Math.max(0, goal[0]), goal[1], goal[2]),
        new Lab(Math.max(0, printed[0]), printed[1], printed[2]));
  }

  private static double[] clipped(double[] tints) {
    double[] clipped = tints.clone();
    for (int i = 0; i < clipped.length; i++) {
      clipped[i] = Math.min(1, Math.max(0, clipped[i]));
    }
    return clipped;
  }

  private double[] solve(double[] goal, double[] start, double[] first, List<Integer> free) {
    double[] from = new double[free.size()];
    for (int k = 0; k < from.length; k++) {
      from[k] = first[free.get(k)];
    }
    double[] found =
        SEARCH.from(from, new double[3 + from.length], new Model(goal, start, free));
    double[] at = start.clone();
    for (int k = 0; k < found.length; k++) {
      at[free.get(k)] = found[k];
    }
    return at;
  }

  /** What is left of the causes, as a function of the free tints. */
  final class Model implements ValueAndJacobianFunction {
    private final double[] goal;
    private final double[] start;
    private final List<Integer> free;

    Model(double[] goal, double[] start, List<Integer> free) {
      this.goal = goal;
      this.start = start;
      this.free = free;
    }

    @Override
    public Pair<RealVector, RealMatrix> value(RealVector point) {
      double[] at = point.toArray();
      return new Pair<>(computeValue(at), computeJacobian(at));
    }

    @Override
    public RealVector computeValue(double[] at) {
      double[] value = new double[3 + at.length];
      PerceptualScale.scale(goal, difference(at), 0, 1, value);
      for (int k = 0; k < at.length; k++) {
        value[3 + k] = PULL * (at[k] - start[free.get(k)]);
      }
      return new ArrayRealVector(value, false);
    }

    private double[] difference(double[] at) {
      double[] sent = start.clone();
      for (int k = 0; k < at.length; k++) {
        sent[free.get(k)] = Math.min(1, Math.max(0, at[k]));
      }
      double[] printed = model.print(cause, sent);
      for (int i = 0; i < 3; i++) {
        printed[i] -= goal[i];
      }
      return printed;
    }

    @Override
    public RealMatrix computeJacobian(double[] at) {
      double[] base = computeValue(at).toArray();
      double[][] jacobian = new double[base.length][at.length];
      for (int k = 0; k < at.length; k++) {
        double[] other = at.clone();
        double step = at[k] + STEP > 1 ? -STEP : STEP;
        other[k] += step;
        double[] after = computeValue(other).toArray();
        for (int i = 0; i < base.length; i++) {
          jacobian[i][k] = (after[i] - base[i]) / step;
        }
      }
      return new Array2DRowRealMatrix(jacobian, false);
    }
  }
}
