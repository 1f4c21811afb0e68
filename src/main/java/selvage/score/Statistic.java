package selvage.score;

import java.util.Arrays;
import java.util.Locale;

/** How the differences of several patches become one figure. */
public enum Statistic {
  MEAN,
  /** The smallest value that at least 95 % of the patches do not exceed. */
  P95,
  MAX,
  /** The mean, each patch weighed by the share of the inked area for which it stands. */
  AREA_MEAN,
  /** The smallest value that the patches of at least 95 % of the weight do not exceed. */
  AREA_P95;

  private static final double SHARE = 0.95;

  /** Guards against sums such as 19 × 0.05 that miss 0.95 by a last bit. */
  private static final double ROUNDING = 1e-9;

  /** Returns the word that stands in files, for example {@code area-mean}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether patches are weighed by area. */
  public boolean byArea() {
    return this == AREA_MEAN || this == AREA_P95;
  }

  /**
   * The figure of some values.
   *
   * @param values at least one
   * @param weights one a value, at least 0, sum above 0; only the area statistics look at them
   */
  public double of(double[] values, double[] weights) {
    if (values.length == 0 || weights.length != values.length) {
      throw new IllegalArgumentException(values.length + " values, " + weights.length + " weights");
    }
    return switch (this) {
      case MEAN -> mean(values, ones(values.length));
      case P95 -> percentile(values, ones(values.length));
      case MAX -> Arrays.stream(values).max().orElseThrow();
      case AREA_MEAN -> mean(values, weights);
      case AREA_P95 -> percentile(values, weights);
    };
  }

  private static double[] ones(int count) {
    double[] ones = new double[count];
    Arrays.fill(ones, 1);
    return ones;
  }

  private static double mean(double[] values, double[] weights) {
    double sum = 0;
    double weight = 0;
    for (int i = 0; i < values.length; i++) {
      sum += weights[i] * values[i];
      weight += weights[i];
    }
    requireWeight(weight);
    return sum / weight;
  }

  private static double percentile(double[] values, double[] weights) {
    Integer[] order = new Integer[values.length];
    double total = 0;
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
      total += weights[i];
    }
    requireWeight(total);
    Arrays.sort(order, (a, b) -> Double.compare(values[a], values[b]));
    int at = 0;
    double reached = weights[order[0]];
    while (reached < (SHARE - ROUNDING) * total) {
      at++;
      reached += weights[order[at]];
    }
    return values[order[at]];
  }

  private static void requireWeight(double total) {
    if (!(total > 0)) {
      throw new IllegalArgumentException("weights that sum to " + total);
    }
  }
}
