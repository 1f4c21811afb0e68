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
 * @param folder the hot folder that the measurement was dropped into
 */
public record ScoreFilter(
    Optional<Instant> from,
    Optional<Instant> to,
    Optional<String> proofingSystem,
    Optional<String> substrate,
    Optional<String> condition,
    Optional<String> folder) {
  /** Every score. */
  public static final ScoreFilter ALL =
      new ScoreFilter(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());

  /** Scores of every hot folder. */
  public ScoreFilter(
      Optional<Instant> from,
      Optional<Instant> to,
      Optional<String> proofingSystem,
      Optional<String> substrate,
      Optional<String> condition) {
    this(from, to, proofingSystem, substrate, condition, Optional.empty());
  }

  public ScoreFilter {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(to, "to");
    Objects.requireNonNull(proofingSystem, "proofingSystem");
    Objects.requireNonNull(substrate, "substrate");
    Objects.requireNonNull(condition, "condition");
    Objects.requireNonNull(folder, "folder");
  }
}
