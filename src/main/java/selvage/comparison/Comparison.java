package selvage.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.ledger.ScoreFilter;

/**
 * What the job strip said against what the standard strip said.
 *
 * @param ledger where it comes from
 * @param filter which scores were asked for
 * @param left what was not compared
 * @param pairs in order of time
 * @param table of the pairs' verdicts
 * @param differences of the pairs' mean ΔE00; empty without pairs
 * @param colors the ones most often over their limits first
 * @param trends by proofing system, substrate and condition
 * @param ewma the charts' figures
 * @param baselineProofs how many proofs make a baseline
 */
public record Comparison(
    String ledger,
    ScoreFilter filter,
    Left left,
    List<ScoredPair> pairs,
    VerdictTable table,
    Optional<Differences> differences,
    List<FailingColor> colors,
    List<Trend> trends,
    Ewma ewma,
    int baselineProofs) {
  /** The same, with its ledger called by another name. */
  public Comparison calling(String name) {
    return new Comparison(
        name, filter, left, pairs, table, differences, colors, trends, ewma, baselineProofs);
  }

  /**
   * What was not compared.
   *
   * @param withoutBoth strips of which only one set was measured
   * @param earlier scores of a strip on a proof that a later one replaced
   */
  public record Left(int withoutBoth, int earlier) {}

  /**
   * Mean ΔE00 of job set (by area) and standard set of each pair.
   *
   * @param job of the job sets
   * @param standard of the standard sets
   * @param difference job minus standard
   * @param test whether the differences lie about 0
   */
  public record Differences(
      Quartiles job, Quartiles standard, Quartiles difference, SignedRank test) {}

  public Comparison {
    Objects.requireNonNull(filter, "filter");
    Objects.requireNonNull(left, "left");
    Objects.requireNonNull(table, "table");
    Objects.requireNonNull(differences, "differences");
    Objects.requireNonNull(ewma, "ewma");
    pairs = List.copyOf(pairs);
    colors = List.copyOf(colors);
    trends = List.copyOf(trends);
  }

  /** How many of the pairs nobody measured on a print. */
  public int simulated() {
    return (int) pairs.stream().filter(ScoredPair::simulated).count();
  }

  /** The alarms of a trend, by time. */
  public static List<Trend.Alarm> alarms(Trend trend) {
    return new ArrayList<>(TrendChart.alarms(trend));
  }
}
