package selvage.power;

import java.util.Arrays;
import java.util.Random;
import selvage.color.De00Kernel;

/** Patches that judge a page. */
final class PowerSet {
  private static final double MEAN_LIMIT = 2.5;
  private static final double P95_LIMIT = 5;

  private final String name;
  private final int count;
  private final int[] rows;
  private final double[] weights;
  private final double within3Percent;

  /**
   * A set.
   *
   * @param name of the way in which they were chosen
   * @param count how many were asked for
   * @param rows of the page's columns
   * @param weights one a row, of the mean and the percentile
   * @param within3Percent how much of the inked area they have within ΔE00 3
   */
  PowerSet(String name, int count, int[] rows, double[] weights, double within3Percent) {
    this.name = name;
    this.count = count;
    this.rows = rows;
    this.weights = weights;
    this.within3Percent = within3Percent;
  }

  String name() {
    return name;
  }

  int count() {
    return count;
  }

  double within3Percent() {
    return within3Percent;
  }

  /** Whether some differences, weighed, are past a limit. */
  static boolean isBad(float[] de00, double[] weights) {
    double total = 0;
    double sum = 0;
    double beyond = 0;
    for (int i = 0; i < de00.length; i++) {
      total += weights[i];
      sum += weights[i] * de00[i];
      beyond += de00[i] > P95_LIMIT ? weights[i] : 0;
    }
    return sum > MEAN_LIMIT * total || beyond > 0.05 * total + 1e-9 * total;
  }

  /** What a measurement of the patches says: true for bad. */
  boolean judges(float[] aims, float[] printed, double noise, Random random) {
    float[] de00 = new float[rows.length];
    double deviation = noise / Math.sqrt(3);
    for (int i = 0; i < de00.length; i++) {
      int at = 3 * rows[i];
      float l = (float) (printed[at] + deviation * random.nextGaussian());
      float a = (float) (printed[at + 1] + deviation * random.nextGaussian());
      float b = (float) (printed[at + 2] + deviation * random.nextGaussian());
      de00[i] =
          De00Kernel.de00(
              aims[at],
              aims[at + 1],
              aims[at + 2],
              De00Kernel.chroma(aims[at + 1], aims[at + 2]),
              l,
              a,
              b,
              De00Kernel.chroma(a, b));
    }
    return isBad(de00, weights);
  }

  static double[] equal(int count) {
    double[] weights = new double[count];
    Arrays.fill(weights, 1);
    return weights;
  }
}
