package selvage.ledger;

import java.time.Instant;
import java.util.Objects;
import java.util.Optional;

/**
 * Which jobs are wanted.
 *
 * @param from received then or later
 * @param to received before
 * @param folder the hot folder's name
 * @param state what became of them
 * @param sha256 of the file's bytes
 */
public record JobFilter(
    Optional<Instant> from,
    Optional<Instant> to,
    Optional<String> folder,
    Optional<JobRecord.State> state,
    Optional<String> sha256) {
  /** Every job. */
  public static final JobFilter ALL =
      new JobFilter(
          Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  public JobFilter {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(to, "to");
    Objects.requireNonNull(folder, "folder");
    Objects.requireNonNull(state, "state");
    Objects.requireNonNull(sha256, "sha256");
  }

  /** Jobs in one state. */
  public static JobFilter in(JobRecord.State state) {
    return new JobFilter(
        Optional.empty(), Optional.empty(), Optional.empty(), Optional.of(state), Optional.empty());
  }

  /** Jobs whose file has these bytes. */
  public static JobFilter ofBytes(String sha256) {
    return new JobFilter(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(sha256));
  }
}
