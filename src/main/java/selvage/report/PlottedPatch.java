package selvage.report;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import selvage.color.Lab;
import selvage.score.ScoredPatch;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * A patch as charts show it.
 *
 * @param id of the patch
 * @param set that it is shown with
 * @param aim what it ought to measure
 * @param lab what it measured
 * @param judged whether it counts for pass or fail
 * @param value how far off it is, in the chart's metric
 * @param limit the tightest limit on it by itself, in the same
 * @param verdict on the patch by itself
 */
record PlottedPatch(
    String id,
    PatchSet set,
    Lab aim,
    Lab lab,
    boolean judged,
    double value,
    OptionalDouble limit,
    Verdict verdict) {
  PlottedPatch {
    Objects.requireNonNull(set, "set");
    Objects.requireNonNull(aim, "aim");
    Objects.requireNonNull(lab, "lab");
    Objects.requireNonNull(limit, "limit");
    Objects.requireNonNull(verdict, "verdict");
  }

  /** Patches of one set, with its limits. */
  static List<PlottedPatch> of(List<ScoredPatch> patches, PatchLimits limits) {
    return patches.stream()
        .map(patch -> of(patch, limits.value(patch), limits.limit(patch), limits.verdict(patch)))
        .toList();
  }

  /** Patches of both sets, for charts without limits. */
  static List<PlottedPatch> of(List<ScoredPatch> patches) {
    return patches.stream()
        .map(patch -> of(patch, patch.de00(), OptionalDouble.empty(), Verdict.PASS))
        .toList();
  }

  private static PlottedPatch of(
      ScoredPatch patch, double value, OptionalDouble limit, Verdict verdict) {
    return new PlottedPatch(
        patch.patch().id(),
        patch.patch().set(),
        patch.patch().aim().lab(),
        patch.lab(),
        patch.judged(),
        value,
        limit,
        verdict);
  }

  double dl() {
    return lab.l() - aim.l();
  }

  /** The distance on the a*b* plane. */
  double dch() {
    return Math.hypot(lab.a() - aim.a(), lab.b() - aim.b());
  }
}
