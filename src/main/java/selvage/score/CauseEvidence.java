package selvage.score;

import java.util.ArrayList;
import java.util.List;

/**
 * What speaks for a chosen cause: how much of the error comes back without it, and which other
 * causes would account for it as well.
 */
final class CauseEvidence {
  /**
   * Twice the logarithm of the ratio of two causes' likelihoods below which readings can't tell
   * them apart: one is some twenty times as likely as the other there.
   */
  private static final double ALIKE = 6;

  /** Readings are never taken for better than this, in ΔE*ab an axis. */
  private static final double LEAST_DEVIATION = 0.05;

  private final NormalEquations equations;
  private final int[][] groups;
  private final List<Integer> chosen;
  private final double rest;
  private final double total;
  private final double variance;

  /**
   * Of a fit.
   *
   * @param equations of all causes about the solution
   * @param groups the columns of each cause
   * @param rest the sum of squares that the chosen causes leave
   * @param total the sum of squares of all errors
   * @param freedom degrees of freedom that are left
   */
  CauseEvidence(
      NormalEquations equations,
      int[][] groups,
      List<Integer> chosen,
      double rest,
      double total,
      int freedom) {
    this.equations = equations;
    this.groups = groups;
    this.chosen = chosen;
    this.rest = rest;
    this.total = total;
    this.variance = Math.max(rest / Math.max(1, freedom), LEAST_DEVIATION * LEAST_DEVIATION);
  }

  /**
   * How much comes back of the sum of squares where a cause is left out and the others are fitted
   * anew, 0 to 1.
   *
   * @param without what is left where that cause is nothing and the others are as found: its own
   *     effect may be far from straight
   */
  double share(int cause, double[] without) {
    double comesBack = equations.with(without).rest(columns(cause, -1)) - rest;
    return total > 0 ? Math.min(1, Math.max(0, comesBack / total)) : 0;
  }

  /**
   * Causes, of no more numbers than this one, that could stand in its place.
   *
   * @param without as for its share
   */
  List<Integer> rivals(int cause, double[] without) {
    NormalEquations others = equations.with(without);
    List<Integer> rivals = new ArrayList<>();
    for (int other = 0; other < groups.length; other++) {
      int size = groups[other].length;
      if (size > 0 && size <= groups[cause].length && !chosen.contains(other)) {
        double left = others.rest(columns(cause, other));
        if (left - rest < ALIKE * variance) {
          rivals.add(other);
        }
      }
    }
    return rivals;
  }

  /** The columns of all chosen causes but one, and of another in its place. */
  private int[] columns(int without, int with) {
    List<Integer> columns = new ArrayList<>();
    for (int cause : chosen) {
      for (int column : groups[cause == without ? Math.max(with, 0) : cause]) {
        if (cause != without || with >= 0) {
          columns.add(column);
        }
      }
    }
    return columns.stream().mapToInt(Integer::intValue).toArray();
  }
}
