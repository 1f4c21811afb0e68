package selvage.score;

import java.util.Objects;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

/**
 * One limit of a tolerance set.
 *
 * @param name unique in the tolerance set, for example {@code substrate}
 * @param set the set of patches that it is about
 * @param patches which of them
 * @param role of these, only those of this role; empty for any
 * @param metric the colour difference
 * @param statistic how several become one
 * @param limit the greatest value that passes, in the metric's unit, above 0
 * @param guardBand half the width of the zone around the limit where nothing is decided, 0 or more
 *     and less than the limit
 * @param least how many patches it is meant for; fewer is a finding
 * @param source where the figure comes from
 * @param mark how it is known, for example {@code quoted}
 */
public record Limit(
    String name,
    PatchSet set,
    PatchChoice patches,
    String role,
    Metric metric,
    Statistic statistic,
    double limit,
    double guardBand,
    int least,
    String source,
    String mark) {
  public Limit {
    Objects.requireNonNull(set, "set");
    Objects.requireNonNull(patches, "patches");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(metric, "metric");
    Objects.requireNonNull(statistic, "statistic");
    if (name.isBlank() || source.isBlank() || mark.isBlank()) {
      throw new IllegalArgumentException("a limit needs a name, a source and a mark: " + name);
    }
    if (!(limit > 0) || !(guardBand >= 0 && guardBand < limit) || least < 1) {
      throw new IllegalArgumentException(
          name + ": limit " + limit + ", guard band " + guardBand + ", least " + least);
    }
    if (statistic.byArea() && set != PatchSet.JOB) {
      throw new IllegalArgumentException(name + ": only job patches stand for an area");
    }
  }

  /**
   * The verdict on a value: pass up to the limit less the guard band, fail beyond the limit and the
   * guard band, undecided between (a guard band on either side [jcgm106]; with a guard band of 0
   * the plain rule).
   *
   * @param band half the width of the zone, 0 or more
   */
  Verdict judge(double value, double band) {
    if (value <= limit - band) {
      return Verdict.PASS;
    }
    return value > limit + band ? Verdict.FAIL : Verdict.UNDECIDED;
  }

  /** Whether a patch is one of those that it is about, and counts. */
  public boolean takes(ScoredPatch patch) {
    return patch.judgedBy(metric) && takes(patch.patch());
  }

  /** Whether a patch is one of those that it is about. */
  boolean takes(Patch patch) {
    return patch.set() == set
        && patches.takes(patch)
        && (role.isEmpty() || role.equals(patch.role()));
  }
}
