package selvage.comparison;

/**
 * An exponentially weighted moving average with its control limits (ISO 7870-6 [iso7870-6]; NIST
 * [nist-ewma]): z₀ is the centre, zᵢ = λ xᵢ + (1 − λ) zᵢ₋₁, and its limits lie L standard
 * deviations of zᵢ about the centre, with the exact variance σ² λ/(2 − λ) (1 − (1 − λ)²ⁱ).
 *
 * @param lambda λ, above 0 to 1
 * @param width L, above 0
 */
public record Ewma(double lambda, double width) {
  /**
   * The usual: λ 0.2 and L 2.86, for an average run of some 370 points between false alarms of one
   * value (figures from memory).
   */
  public static final Ewma USUAL = new Ewma(0.2, 2.86);

  public Ewma {
    if (!(lambda > 0 && lambda <= 1 && width > 0)) {
      throw new IllegalArgumentException("lambda " + lambda + ", width " + width);
    }
  }

  /** The average after the next value. */
  public double next(double average, double value) {
    return lambda * value + (1 - lambda) * average;
  }

  /**
   * Half the width between the limits at a point.
   *
   * @param sigma standard deviation of single values
   * @param number of the point after the centre was fixed, from 1
   */
  public double limit(double sigma, int number) {
    double variance = lambda / (2 - lambda) * (1 - Math.pow(1 - lambda, 2.0 * number));
    return width * sigma * Math.sqrt(variance);
  }
}
