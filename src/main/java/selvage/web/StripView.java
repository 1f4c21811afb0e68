package selvage.web;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import selvage.finding.Finding;
import selvage.report.FiledScore.PatchResult;
import selvage.report.FiledScore.StripResult;
import selvage.report.InkText;
import selvage.report.PagePlots;
import selvage.report.ReportSection;
import selvage.report.ScoreWords;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/**
 * A scored strip on its page.
 *
 * @param result what it came to
 * @param rows its patches, sorted as wished
 * @param bars how far patches are off, a list of drawings for each set
 * @param drift where the colours went
 * @param sections what not every score has: diagnosis, repeatability
 */
public record StripView(
    StripResult result,
    List<PatchRow> rows,
    List<Bars> bars,
    PagePlots.Drift drift,
    List<ReportSection> sections) {
  /**
   * The bars of a set.
   *
   * @param name the set's
   * @param drawings SVG elements
   */
  public record Bars(String name, List<String> drawings) {
    public Bars {
      drawings = List.copyOf(drawings);
    }
  }

  public StripView {
    rows = List.copyOf(rows);
    bars = List.copyOf(bars);
    sections = List.copyOf(sections);
  }

  /**
   * Makes one.
   *
   * @param strip as it was stamped, where the ledger has it
   */
  static StripView of(StripResult result, Optional<Strip> strip, PatchSort sort) {
    Map<String, Patch> patches = new HashMap<>();
    strip.ifPresent(
        found ->
            found.patches().forEach(patch -> patches.put(key(patch.set(), patch.id()), patch)));
    List<PatchRow> rows = new ArrayList<>();
    for (PatchResult patch : result.patches()) {
      rows.add(row(result.stripId(), patch, patches.get(key(patch.set(), patch.id()))));
    }
    List<Bars> bars = new ArrayList<>();
    for (PatchSet set : PatchSet.values()) {
      List<PatchResult> some = result.patches(set);
      if (!some.isEmpty()) {
        bars.add(new Bars(ScoreWords.setName(set), Marks.PLOTS.bars(set, some)));
      }
    }
    List<ReportSection> sections = new ArrayList<>();
    result.diagnosisSection().ifPresent(sections::add);
    result.repeatSection(builds(patches)).ifPresent(sections::add);
    return new StripView(
        result, sort.sorted(rows), bars, Marks.PLOTS.drift(result.patches()), sections);
  }

  /** Doubts, with the measurement called by its name alone. */
  public List<Finding> findings() {
    String source = result.measurement();
    String folder = source.substring(0, source.lastIndexOf('/') + 1);
    if (folder.isEmpty()) {
      return result.findings();
    }
    return result.findings().stream()
        .map(
            finding ->
                new Finding(finding.code(), finding.severity(), finding.text().replace(folder, "")))
        .toList();
  }

  private static UnaryOperator<String> builds(Map<String, Patch> patches) {
    return id -> {
      for (PatchSet set : PatchSet.values()) {
        Patch patch = patches.get(key(set, id));
        if (patch != null) {
          return InkText.of(patch.mixture());
        }
      }
      return "";
    };
  }

  private static PatchRow row(String stripId, PatchResult result, Patch patch) {
    boolean hasShare = patch != null && patch.set() == PatchSet.JOB;
    return new PatchRow(
        Marks.anchor(stripId, result.set().word(), result.id()),
        patch == null ? "" : InkText.of(patch.mixture()),
        hasShare ? OptionalDouble.of(patch.representsPercent()) : OptionalDouble.empty(),
        result);
  }

  private static String key(PatchSet set, String id) {
    return set.word() + " " + id;
  }
}
