package selvage.web;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.comparison.Comparison;
import selvage.comparison.FailingColor;
import selvage.comparison.ScoredPair;
import selvage.comparison.Trend;
import selvage.ledger.LabelNames;
import selvage.ledger.ScoredStrip;
import selvage.report.ComparisonText;
import selvage.report.InkText;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * A comparison on its page.
 *
 * @param wish what was asked for
 * @param names to choose from
 * @param scores in the whole ledger
 * @param comparison what came of it
 * @param escapes the job strip fails, the standard strip passes; the latest first
 * @param falseAlarms the other way round
 * @param trends by device, substrate and condition
 * @param chartData for the page's script, JSON
 */
public record ComparisonView(
    ComparisonWish wish,
    LabelNames names,
    long scores,
    Comparison comparison,
    List<Case> escapes,
    List<Case> falseAlarms,
    List<TrendView> trends,
    String chartData) {
  /** The verdicts in the order of the tables. */
  public static final List<Verdict> VERDICTS =
      List.of(Verdict.PASS, Verdict.FAIL, Verdict.UNDECIDED);

  /**
   * A proof on which the strips disagree.
   *
   * @param pair its verdicts
   * @param culprits the colours that failed, the worst first
   */
  public record Case(ScoredPair pair, List<Culprit> culprits) {
    public Case {
      Objects.requireNonNull(pair, "pair");
      culprits = List.copyOf(culprits);
    }
  }

  /**
   * A patch beyond its limit.
   *
   * @param id the patch's
   * @param build its inks in words; empty where the ledger lacks the job
   * @param anchor of its row on the score's page
   * @param reading what it came to
   */
  public record Culprit(String id, String build, String anchor, ScoredStrip.Reading reading) {
    static Culprit of(String stripId, ScoredStrip.Reading reading) {
      return new Culprit(
          reading.id(),
          reading.mixture().map(InkText::of).orElse(""),
          Marks.anchor(stripId, reading.set().word(), reading.id()),
          reading);
    }
  }

  /**
   * A trend.
   *
   * @param name of device, substrate and condition
   * @param charted whether there are enough proofs for a control chart
   * @param plots SVG elements, one an axis; none where there is nothing to chart
   * @param sentences stages and alarms
   * @param trend the points
   */
  public record TrendView(
      String name, boolean charted, List<String> plots, List<String> sentences, Trend trend) {
    public TrendView {
      plots = List.copyOf(plots);
      sentences = List.copyOf(sentences);
    }

    /** The alarms, by time. */
    public List<Trend.Alarm> alarms() {
      return Comparison.alarms(trend);
    }
  }

  public ComparisonView {
    escapes = List.copyOf(escapes);
    falseAlarms = List.copyOf(falseAlarms);
    trends = List.copyOf(trends);
  }

  /** How many proofs a strip came to a verdict on. */
  public int count(PatchSet set, Verdict verdict) {
    int sum = 0;
    for (Verdict other : VERDICTS) {
      sum +=
          set == PatchSet.JOB
              ? comparison.table().count(verdict, other)
              : comparison.table().count(other, verdict);
    }
    return sum;
  }

  /** The colours that were over a limit at all, the most often first. */
  public List<FailingColor> failing() {
    return ComparisonText.failing(comparison);
  }

  /** The quartiles' drawing. */
  public Optional<String> quartiles() {
    return comparison.differences().map(Marks.PLOTS::quartiles);
  }

  /** The drawing of the pairs. */
  public String pairs() {
    return Marks.PLOTS.pairs(comparison.pairs());
  }
}
