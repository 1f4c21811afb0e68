package selvage.score;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.BiFunction;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.ink.InkMixture;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

/**
 * Patches of one set that print the same mixture, such as the paper of every row: their readings
 * are averaged in CIELAB, and a set's statistics count them once.
 */
final class EqualPatches {
  /** ΔE00 from their mean above which equal patches are a warning (house rule). */
  private static final double UNEVEN = 1.5;

  private record Key(PatchSet set, InkMixture mixture, Lab aim) {
    static Key of(Patch patch) {
      return new Key(patch.set(), patch.mixture(), patch.aim().lab());
    }
  }

  private EqualPatches() {}

  /**
   * One for each mixture and set, in the order of the first of each.
   *
   * @param scored makes a scored patch of a patch and a reading
   * @param findings gets which were averaged, and how far they spread
   */
  static List<ScoredPatch> once(
      List<ScoredPatch> patches,
      BiFunction<Patch, Lab, ScoredPatch> scored,
      List<Finding> findings) {
    Map<Key, List<ScoredPatch>> groups = new LinkedHashMap<>();
    for (ScoredPatch patch : patches) {
      groups.computeIfAbsent(Key.of(patch.patch()), key -> new ArrayList<>()).add(patch);
    }
    List<ScoredPatch> counted = new ArrayList<>(groups.size());
    for (List<ScoredPatch> group : groups.values()) {
      if (group.size() == 1) {
        counted.add(group.get(0));
        continue;
      }
      Lab mean = mean(group);
      counted.add(scored.apply(merged(group), mean));
      findings.add(finding(group, mean));
    }
    return counted;
  }

  private static Lab mean(List<ScoredPatch> group) {
    double l = 0;
    double a = 0;
    double b = 0;
    for (ScoredPatch patch : group) {
      l += patch.lab().l();
      a += patch.lab().a();
      b += patch.lab().b();
    }
    int n = group.size();
    return new Lab(l / n, a / n, b / n);
  }

  /** The first of them, standing for the shares of all. */
  private static Patch merged(List<ScoredPatch> group) {
    Patch first = group.get(0).patch();
    double represents = 0;
    for (ScoredPatch patch : group) {
      represents += patch.patch().representsPercent();
    }
    return new Patch(
        first.id(),
        first.set(),
        first.role(),
        first.mixture(),
        first.aim(),
        first.areaPercent(),
        Math.min(100, represents),
        first.row(),
        first.column(),
        first.box(),
        first.reason(),
        first.where());
  }

  private static Finding finding(List<ScoredPatch> group, Lab mean) {
    double most = 0;
    StringBuilder ids = new StringBuilder();
    for (ScoredPatch patch : group) {
      most = Math.max(most, ColorDifference.de00(mean, patch.lab()));
      ids.append(ids.length() == 0 ? "" : ", ").append(patch.patch().id());
    }
    String text =
        String.format(
            Locale.ROOT,
            "%s print the same (%s): their readings were averaged and count once; they lie within"
                + " ΔE00 %.2f of their mean",
            ids,
            group.get(0).patch().mixture(),
            most);
    return most > UNEVEN
        ? Finding.warning(
            "equal-patches-differ", text + ", so the sheet is uneven or one was misread")
        : Finding.note("equal-patches-averaged", text);
  }
}
