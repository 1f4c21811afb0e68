package selvage.score;

import java.util.List;
import selvage.color.Lab;

/**
 * How far readings scatter, and what that makes of a check's value.
 *
 * <p>A reading scatters about its mean alike on each axis of CIELAB, readings independently of each
 * other. The scatter goes over to a patch's difference by the difference's slopes, and to a check's
 * value by the weight that each patch has in it: its share in a mean, all or nothing in a maximum
 * or percentile (JCGM 100, clause 5.1 [jcgm100]). The expanded uncertainty is twice the standard
 * uncertainty, for a coverage of about 95 %.
 *
 * @param repeatabilityDe76 root mean square ΔE*ab of a single reading about the mean of many, 0 or
 *     more; 0 gives no guard band
 * @param averaged how many readings each value is the mean of, at least 1
 */
public record Uncertainty(double repeatabilityDe76, int averaged) {
  /** Readings taken for exact: the plain rule. */
  public static final Uncertainty NONE = new Uncertainty(0, 1);

  private static final double COVERAGE = 2;

  public Uncertainty {
    if (!(repeatabilityDe76 >= 0 && repeatabilityDe76 <= 20) || averaged < 1) {
      throw new IllegalArgumentException(
          "a repeatability of "
              + repeatabilityDe76
              + " over "
              + averaged
              + " readings; expected 0"
              + " to 20");
    }
  }

  /** Expanded uncertainty of the figure that a statistic makes of these patches. */
  double expanded(Statistic statistic, Metric metric, List<ScoredPatch> patches, double value) {
    if (repeatabilityDe76 == 0) {
      return 0;
    }
    double sum = 0;
    double weights = 0;
    for (ScoredPatch patch : patches) {
      double weight = statistic.byArea() ? patch.patch().representsPercent() : 1;
      double own = standard(metric, patch);
      if (statistic == Statistic.MEAN || statistic == Statistic.AREA_MEAN) {
        sum += weight * weight * own * own;
        weights += weight;
      } else if (metric.of(patch) == value) {
        sum = Math.max(sum, own * own);
        weights = 1;
      }
    }
    return weights > 0 ? COVERAGE * Math.sqrt(sum) / weights : 0;
  }

  /** Standard uncertainty of a patch's difference. */
  private double standard(Metric metric, ScoredPatch patch) {
    double step = repeatabilityDe76 / Math.sqrt(3.0 * averaged);
    double[] lab = {patch.lab().l(), patch.lab().a(), patch.lab().b()};
    double sum = 0;
    for (int axis = 0; axis < 3; axis++) {
      double change =
          (moved(metric, patch, lab, axis, step) - moved(metric, patch, lab, axis, -step)) / 2;
      sum += change * change;
    }
    return Math.sqrt(sum);
  }

  private static double moved(
      Metric metric, ScoredPatch patch, double[] lab, int axis, double step) {
    double[] other = lab.clone();
    other[axis] += step;
    return metric.of(patch, new Lab(other[0], other[1], other[2]));
  }
}
