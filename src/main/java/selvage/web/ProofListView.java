package selvage.web;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreSummary;

/**
 * A page of the ledger's jobs.
 *
 * @param rows the latest first
 * @param text that was looked for; empty for none
 * @param state the word of the state that was asked for; empty for all
 * @param total jobs on all pages
 * @param page this one, from 1
 * @param pages all
 * @param query the wishes as they stand in an address, without the page
 */
public record ProofListView(
    List<Row> rows, String text, String state, long total, long page, long pages, String query) {
  /**
   * A job.
   *
   * @param job what became of it
   * @param last its latest score
   */
  public record Row(JobRecord job, Optional<ScoreSummary> last) {
    public Row {
      Objects.requireNonNull(job, "job");
      Objects.requireNonNull(last, "last");
    }
  }

  public ProofListView {
    rows = List.copyOf(rows);
  }

  /** All states that can be asked for. */
  public List<JobRecord.State> states() {
    return List.of(JobRecord.State.values());
  }

  /** Whether anything was asked for. */
  public boolean filtered() {
    return !text.isEmpty() || !state.isEmpty();
  }
}
