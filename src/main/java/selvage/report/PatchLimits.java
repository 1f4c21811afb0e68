package selvage.report;

import java.util.List;
import java.util.OptionalDouble;
import selvage.score.Check;
import selvage.score.Limit;
import selvage.score.Metric;
import selvage.score.PatchChoice;
import selvage.score.ProofScore;
import selvage.score.ScoredPatch;
import selvage.score.Statistic;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * What a score allows each patch of a set by itself, in the one metric that the chart of the set
 * shows.
 *
 * @param metric {@link Metric#DE76} where the set's maximum over all patches is in it alone, else
 *     {@link Metric#DE00}
 * @param maxima the checks of a maximum in that metric
 * @param mean the limit of the mean over all patches
 */
record PatchLimits(Metric metric, List<Check> maxima, OptionalDouble mean) {
  PatchLimits {
    maxima = List.copyOf(maxima);
  }

  static PatchLimits of(ProofScore score, PatchSet set) {
    List<Check> checks =
        score.checks().stream().filter(check -> check.limit().set() == set).toList();
    Metric metric =
        has(checks, Metric.DE76) && !has(checks, Metric.DE00) ? Metric.DE76 : Metric.DE00;
    List<Check> ofMetric =
        checks.stream().filter(check -> check.limit().metric() == metric).toList();
    return new PatchLimits(
        metric,
        ofMetric.stream().filter(check -> check.limit().statistic() == Statistic.MAX).toList(),
        ofMetric.stream()
            .map(Check::limit)
            .filter(limit -> limit.patches() == PatchChoice.ALL && limit.role().isEmpty())
            .filter(limit -> limit.statistic() == Statistic.MEAN)
            .mapToDouble(Limit::limit)
            .findFirst());
  }

  private static boolean has(List<Check> checks, Metric metric) {
    return checks.stream()
        .map(Check::limit)
        .anyMatch(
            limit ->
                limit.metric() == metric
                    && limit.statistic() == Statistic.MAX
                    && limit.patches() == PatchChoice.ALL);
  }

  double value(ScoredPatch patch) {
    return metric == Metric.DE76 ? patch.de76() : patch.de00();
  }

  /** The tightest limit for a patch by itself; none where it does not count. */
  OptionalDouble limit(ScoredPatch patch) {
    return maxima.stream()
        .map(Check::limit)
        .filter(limit -> limit.takes(patch))
        .mapToDouble(Limit::limit)
        .min();
  }

  /** What the patch by itself comes to by these limits. */
  Verdict verdict(ScoredPatch patch) {
    Verdict verdict = Verdict.PASS;
    double value = value(patch);
    for (Check check : maxima) {
      double limit = check.limit().limit();
      if (check.limit().takes(patch) && value > limit - check.guardBand()) {
        verdict = verdict.and(value > limit + check.guardBand() ? Verdict.FAIL : Verdict.UNDECIDED);
      }
    }
    return verdict;
  }
}
