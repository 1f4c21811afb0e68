package selvage.score;

import java.util.Map;
import java.util.Optional;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

/** Single patches and limits, by hand. */
final class ScoredFixture {
  private ScoredFixture() {}

  static Patch patch(PatchSet set, String role, Map<String, Double> inks, Lab aim, double share) {
    return new Patch(
        "P1",
        set,
        role,
        InkMixture.ofPercents(inks),
        new Aim(aim, AimSource.CONDITION_NODE),
        share,
        share,
        1,
        1,
        new BoxMm(0, 0, 9, 9),
        Optional.empty(),
        Optional.empty());
  }

  /** A judged job patch. */
  static ScoredPatch scored(Map<String, Double> inks, Lab aim, Lab reading, double share) {
    return new ScoredPatch(
        patch(PatchSet.JOB, "flat", inks, aim, share),
        reading,
        ColorDifference.de00(aim, reading),
        ColorDifference.de76(aim, reading),
        ColorDifference.dCh(aim, reading),
        ColorDifference.dH(aim, reading),
        ColorDifference.dL(aim, reading),
        true,
        Optional.empty());
  }

  /** A limit of 3 on the greatest ΔE00 of these patches of the job. */
  static Limit limit(String name, PatchChoice patches) {
    return limit(name, PatchSet.JOB, patches, 3, 0, 1);
  }

  static Limit limit(
      String name, PatchSet set, PatchChoice patches, double limit, double guardBand, int least) {
    return new Limit(
        name,
        set,
        patches,
        "",
        Metric.DE00,
        Statistic.MAX,
        limit,
        guardBand,
        least,
        "test",
        "house rule");
  }
}
