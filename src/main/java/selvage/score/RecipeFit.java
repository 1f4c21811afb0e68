package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
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

  /** The same for a process ink of which the readings tell nothing: it may be off by a tenth. */
  private static final double PULL_UNSEEN = 5;

  /** What a mixture farther from the curves' own must gain, in ΔE00. */
  private static final double WORTH = 0.7;

  /**
   * Where the search begins too, the nearest first: with so much of the curves' mixture, the rest
   * of one of process inks alone. A little of the wrong process inks makes a colour worse before
   * more of the right ones makes it better, so that a search from the curves' mixture stays there.
   */
  private static final double[] SHARES = {0.75, 0.5, 0.25, 0};

  private static final double STEP = 1e-3;
  private static final LeastSquaresSearch SEARCH = new LeastSquaresSearch(1e-6, 1e-5, 80, 30);

  private final PrintModel model;
  private final double[] cause;
  private final boolean[] seen;
  private final double inkLimitPercent;

  /**
   * For prints with these causes.
   *
   * @param cause the model's parameters
   * @param seen which inks the readings tell of, in the model's order
   * @param inkLimitPercent the most total ink, where the mixture's own has less
   */
  RecipeFit(PrintModel model, double[] cause, boolean[] seen, double inkLimitPercent) {
    this.model = model;
    this.cause = cause;
    this.seen = seen.clone();
    this.inkLimitPercent = inkLimitPercent;
  }

  /**
   * The mixture to send.
   *
   * @param mixture asked for
   * @param byCurves what the curves give for it
   * @param goal the colour that the model has to print: L*, a*, b*
   * @param enough ΔE00 from the goal that needs no search farther away
   */
  InkMixture of(InkMixture mixture, InkMixture byCurves, double[] goal, double enough) {
    double limit = Math.max(inkLimitPercent, mixture.totalPercent());
    double[] start = model.tints(List.of(byCurves));
    List<Integer> free = new ArrayList<>();
    for (int ink = 0; ink < start.length; ink++) {
      Colorant colorant = model.inks().get(ink);
      if (!colorant.isSpot() || mixture.units(colorant) > 0) {
        free.add(ink);
      }
    }
    double[] at = solve(goal, start, start, free, limit);
    double left = left(goal, at, limit);
    double[] process = left > enough ? process(goal, start.length, limit) : start;
    double least = left - WORTH;
    for (int i = 0; i < SHARES.length && left > enough; i++) {
      double[] first = start.clone();
      for (int ink : free) {
        first[ink] = SHARES[i] * start[ink] + (1 - SHARES[i]) * process[ink];
      }
      double[] other = solve(goal, start, first, free, limit);
      double then = left(goal, other, limit);
      if (then < least) {
        at = other;
        least = then - WORTH;
        left = then;
      }
    }
    return mixture(mixture, at, limit);
  }

  private InkMixture mixture(InkMixture asked, double[] at, double limit) {
    Map<Colorant, Double> percents = new TreeMap<>();
    for (int ink = 0; ink < at.length; ink++) {
      double percent = Math.round(1e4 * Math.min(1, Math.max(0, at[ink]))) / 100.0;
      if (percent >= 0.2 || asked.units(model.inks().get(ink)) > 0) {
        percents.put(model.inks().get(ink), percent);
      }
    }
    return Correction.limited(percents, limit);
  }

  /** A mixture of process inks alone that comes near to the goal. */
  private double[] process(double[] goal, int inks, double limit) {
    double[] first = new double[inks];
    Arrays.fill(first, 0, Colorant.PROCESS.size() - 1, 0.5);
    return sent(solve(goal, first, first, List.of(0, 1, 2, 3), limit), limit);
  }

  private double left(double[] goal, double[] at, double limit) {
    double[] printed = model.print(cause, sent(at, limit));
    return ColorDifference.de00(
        new Lab(Math.max(0, goal[0]), goal[1], goal[2]),
        new Lab(Math.max(0, printed[0]), printed[1], printed[2]));
  }

  /** What is sent of tints that a search came to: within 0 and 1 each, and within the limit. */
  private static double[] sent(double[] tints, double limit) {
    double[] sent = new double[tints.length];
    double sum = 0;
    for (int i = 0; i < sent.length; i++) {
      sent[i] = Math.min(1, Math.max(0, tints[i]));
      sum += sent[i];
    }
    for (int i = 0; i < sent.length && 100 * sum > limit; i++) {
      sent[i] *= limit / (100 * sum);
    }
    return sent;
  }

  private double[] solve(
      double[] goal, double[] start, double[] first, List<Integer> free, double limit) {
    double[] from = new double[free.size()];
    for (int k = 0; k < from.length; k++) {
      from[k] = first[free.get(k)];
    }
    double[] found =
        SEARCH.from(from, new double[3 + from.length], new Model(goal, start, free, limit));
    double[] at = start.clone();
    for (int k = 0; k < found.length; k++) {
      at[free.get(k)] = found[k];
    }
    return at;
  }

  /** What is left of the causes, as a function of the free tints. */
  final class Model implements PointModel {
    private final double[] goal;
    private final double[] start;
    private final List<Integer> free;
    private final double limit;

    Model(double[] goal, double[] start, List<Integer> free, double limit) {
      this.goal = goal;
      this.start = start;
      this.free = free;
      this.limit = limit;
    }

    @Override
    public RealVector computeValue(double[] at) {
      double[] value = new double[3 + at.length];
      PerceptualScale.scale(goal, difference(at), 0, 1, value);
      for (int k = 0; k < at.length; k++) {
        value[3 + k] = (seen[free.get(k)] ? PULL : PULL_UNSEEN) * (at[k] - start[free.get(k)]);
      }
      return new ArrayRealVector(value, false);
    }

    private double[] difference(double[] at) {
      double[] tints = start.clone();
      for (int k = 0; k < at.length; k++) {
        tints[free.get(k)] = at[k];
      }
      double[] printed = model.print(cause, sent(tints, limit));
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
