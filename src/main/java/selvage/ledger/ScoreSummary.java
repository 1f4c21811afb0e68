package selvage.ledger;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.score.Verdict;

/**
 * A filed score at a glance.
 *
 * @param record where it comes from
 * @param verdict on the whole
 * @param strips that were measured, in the score's order
 */
public record ScoreSummary(ScoreRecord record, Verdict verdict, List<StripVerdict> strips) {
  /**
   * What one strip came to.
   *
   * @param stripId the strip
   * @param page of the job, counted from 1
   * @param simulated whether nobody measured a print
   * @param tolerance the tolerance set's name
   * @param job verdict of the job set, where it was measured
   * @param standard verdict of the standard set, where it was measured
   */
  public record StripVerdict(
      String stripId,
      int page,
      boolean simulated,
      String tolerance,
      Optional<Verdict> job,
      Optional<Verdict> standard) {
    public StripVerdict {
      Objects.requireNonNull(stripId, "stripId");
      Objects.requireNonNull(tolerance, "tolerance");
      Objects.requireNonNull(job, "job");
      Objects.requireNonNull(standard, "standard");
    }

    StripVerdict withJob(Verdict verdict) {
      return new StripVerdict(stripId, page, simulated, tolerance, Optional.of(verdict), standard);
    }

    StripVerdict withStandard(Verdict verdict) {
      return new StripVerdict(stripId, page, simulated, tolerance, job, Optional.of(verdict));
    }
  }

  public ScoreSummary {
    Objects.requireNonNull(record, "record");
    Objects.requireNonNull(verdict, "verdict");
    strips = List.copyOf(strips);
  }

  /** The verdict on the job sets of all strips; empty where none was measured. */
  public Optional<Verdict> job() {
    return strips.stream().flatMap(strip -> strip.job().stream()).reduce(Verdict::and);
  }

  /** The verdict on the standard sets of all strips; empty where none was measured. */
  public Optional<Verdict> standard() {
    return strips.stream().flatMap(strip -> strip.standard().stream()).reduce(Verdict::and);
  }

  /** Whether nobody measured a print, at least for one of the strips. */
  public boolean simulated() {
    return strips.stream().anyMatch(StripVerdict::simulated);
  }
}
