package selvage.ledger;

import java.time.Instant;
import java.util.Objects;
import java.util.Optional;

/**
 * Which scores are wanted. Names are compared exactly, with those on the proof's label.
 *
 * @param from measurement received then or later
 * @param to measurement received before
 * @param proofingSystem as the label names it
 * @param substrate as the label names it
 * @param condition the reference printing condition's name
 */
public record ScoreFilter(
    Optional<Instant> from,
    Optional<Instant> to,
    Optional<String> proofingSystem,
    Optional<String> substrate,
    Optional<String> condition) {
  /** Every score. */
  public static final ScoreFilter ALL =
      new ScoreFilter(
          Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  public ScoreFilter {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(to, "to");
    Objects.requireNonNull(proofingSystem, "proofingSystem");
    Objects.requireNonNull(substrate, "substrate");
    Objects.requireNonNull(condition, "condition");
  }
}
