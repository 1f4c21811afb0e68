package selvage.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;
import selvage.measurement.Repeatability;
import selvage.measurement.Repeatability.OddReading;
import selvage.measurement.Repeatability.PatchSpread;
import selvage.score.ProofScore;
import selvage.score.ScoredPatch;

/** What a report says of readings that were taken more than once. */
final class RepeatSection {
  /** Patches in the table: those whose readings lie furthest apart. */
  private static final int MOST = 6;

  private RepeatSection() {}

  static ReportSection of(Repeatability found, ProofScore score) {
    return of(found, patchId -> inks(patchId, score));
  }

  /**
   * The section.
   *
   * @param inks the build of a patch in words, by the patch's id
   */
  static ReportSection of(Repeatability found, UnaryOperator<String> inks) {
    List<String> lines = new ArrayList<>();
    int files = found.sources().size();
    lines.add(
        (found.patches() == 1 ? "1 patch was" : found.patches() + " patches were")
            + " read more than once"
            + (files > 1 ? ", in " + files + " files or tables" : "")
            + ": "
            + found.readings()
            + " readings, averaged in CIELAB.");
    lines.add(
        "A reading lies ΔE00 "
            + Figures.fixed(found.meanDe00(), 2)
            + " from the mean of its patch on average, "
            + Figures.fixed(found.maxDe00(), 2)
            + " at most. Standard deviation of one reading: ΔE00 "
            + Figures.fixed(found.deviationDe00(), 2)
            + ", ΔE*ab "
            + Figures.fixed(found.deviationDe76(), 2)
            + ".");
    for (OddReading odd : found.odd()) {
      lines.add(
          "Odd reading, left out: "
              + odd.patchId()
              + " in "
              + odd.source()
              + ", line "
              + odd.line()
              + ", ΔE00 "
              + Figures.fixed(odd.de00(), 2)
              + " from the others.");
    }
    return new ReportSection("Repeatability of the readings", lines, table(found, inks));
  }

  private static List<List<String>> table(Repeatability found, UnaryOperator<String> inks) {
    List<List<String>> table = new ArrayList<>();
    table.add(List.of("Widest apart", "Inks, %", "Readings", "mean ΔE00", "greatest"));
    found.spreads().stream()
        .sorted(Comparator.comparingDouble(PatchSpread::maxDe00).reversed())
        .limit(MOST)
        .forEach(
            spread ->
                table.add(
                    List.of(
                        spread.patchId(),
                        inks.apply(spread.patchId()),
                        Integer.toString(spread.readings()),
                        Figures.fixed(spread.meanDe00(), 2),
                        Figures.fixed(spread.maxDe00(), 2))));
    return table;
  }

  private static String inks(String patchId, ProofScore score) {
    return score.patches().stream()
        .map(ScoredPatch::patch)
        .filter(patch -> patch.id().equals(patchId))
        .map(patch -> InkText.of(patch.mixture()))
        .findFirst()
        .orElse("");
  }
}
