package selvage.comparison;

import java.util.Arrays;

/**
 * Where values lie. Between two values the quantile is interpolated, type 7 of Hyndman and Fan
 * (1996).
 *
 * @param least of all
 * @param lower quartile
 * @param median of all
 * @param upper quartile
 * @param greatest of all
 * @param mean of all
 */
public record Quartiles(
    double least, double lower, double median, double upper, double greatest, double mean) {
  /**
   * Of some values.
   *
   * @param values at least one
   */
  public static Quartiles of(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return new Quartiles(
        sorted[0],
        quantile(sorted, 0.25),
        quantile(sorted, 0.5),
        quantile(sorted, 0.75),
        sorted[sorted.length - 1],
        Arrays.stream(values).average().orElseThrow());
  }

  private static double quantile(double[] sorted, double share) {
    double at = share * (sorted.length - 1);
    int below = (int) at;
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }
}
