package selvage.web;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreRecord;
import selvage.report.FiledScore;

/**
 * A score on its page.
 *
 * @param record where it comes from
 * @param job whose strips were measured, where the ledger has it
 * @param score as it was filed
 * @param strips that were measured
 * @param sort of the patches
 * @param facts names and what is told of them
 * @param hasReport whether the report still lies beside the proof
 * @param correction what would mend the print, where it was asked for
 */
public record ScoreView(
    ScoreRecord record,
    Optional<JobRecord> job,
    FiledScore score,
    List<StripView> strips,
    PatchSort sort,
    List<Fact> facts,
    boolean hasReport,
    Optional<CorrectionView> correction) {
  /** A name and what is told of it. */
  public record Fact(String name, String value) {}

  public ScoreView {
    Objects.requireNonNull(record, "record");
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(score, "score");
    Objects.requireNonNull(sort, "sort");
    Objects.requireNonNull(correction, "correction");
    strips = List.copyOf(strips);
    facts = List.copyOf(facts);
  }

  /** Whether nobody measured a print. */
  public boolean simulated() {
    return score.strips().stream().anyMatch(FiledScore.StripResult::simulated);
  }
}
