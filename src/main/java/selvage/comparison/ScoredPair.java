package selvage.comparison;

import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import selvage.score.Verdict;

/**
 * A strip on a proof with the verdicts of both its sets.
 *
 * @param scoreId the score in the ledger
 * @param jobId the job in the ledger, where it is there
 * @param received when its measurement was taken
 * @param proof the stamped proof, else the measurement
 * @param page of the job, counted from 1
 * @param stripId the strip
 * @param source which device, paper and condition
 * @param simulated whether nobody measured a print
 * @param job verdict of the job set
 * @param standard verdict of the standard set
 * @param jobDe00 mean ΔE00 of the job set, weighed by area
 * @param standardDe00 mean ΔE00 of the standard set
 * @param drift of the standard set
 */
public record ScoredPair(
    String scoreId,
    Optional<String> jobId,
    Instant received,
    String proof,
    int page,
    String stripId,
    Source source,
    boolean simulated,
    Verdict job,
    Verdict standard,
    double jobDe00,
    double standardDe00,
    LabMean drift) {
  /** Where a proof comes from, as far as its label tells. */
  public record Source(
      Optional<String> proofingSystem, Optional<String> substrate, Optional<String> condition)
      implements Comparable<Source> {
    @Override
    public int compareTo(Source other) {
      int order = text(proofingSystem).compareTo(text(other.proofingSystem));
      order = order != 0 ? order : text(substrate).compareTo(text(other.substrate));
      return order != 0 ? order : text(condition).compareTo(text(other.condition));
    }

    private static String text(Optional<String> name) {
      return name.orElse("");
    }
  }

  public ScoredPair {
    Objects.requireNonNull(scoreId, "scoreId");
    Objects.requireNonNull(jobId, "jobId");
    Objects.requireNonNull(received, "received");
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(standard, "standard");
    Objects.requireNonNull(drift, "drift");
  }
}
