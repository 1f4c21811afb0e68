package selvage.comparison;

import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * A share of a count, with the score interval of Wilson (1927) at 95 %, without continuity
 * correction.
 *
 * @param count how many
 * @param of out of how many
 * @param low lower end, 0 to 1; 0 where there are none at all
 * @param high upper end, 0 to 1; 1 where there are none at all
 */
public record Proportion(int count, int of, double low, double high) {
  /** The two-sided 95 % point of the normal distribution. */
  static final double Z = new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.975);

  public Proportion {
    if (count < 0 || of < count || !(low >= 0 && low <= high && high <= 1)) {
      throw new IllegalArgumentException(count + " of " + of + ": " + low + " to " + high);
    }
  }

  /** A share with its interval [wilson1927]. */
  public static Proportion wilson(int count, int of) {
    if (of == 0) {
      return new Proportion(0, 0, 0, 1);
    }
    double p = (double) count / of;
    double z2 = Z * Z / of;
    double centre = (p + z2 / 2) / (1 + z2);
    double half = Math.sqrt(p * (1 - p) * z2 + z2 * z2 / 4) / (1 + z2);
    return new Proportion(
        count,
        of,
        count == 0 ? 0 : Math.max(0, centre - half),
        count == of ? 1 : Math.min(1, centre + half));
  }

  /** The share itself, 0 to 1; not a number where there are none at all. */
  public double share() {
    return (double) count / of;
  }
}
