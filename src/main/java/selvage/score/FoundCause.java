package selvage.score;

import java.util.List;
import java.util.Objects;

/**
 * A cause that the readings show.
 *
 * @param cause what moved
 * @param values how far, in the units of its kind: percent, degrees, or ΔL*, Δa*, Δb*
 * @param margins half the width of the 95 % confidence interval of each value
 * @param share of the errors' sum of squares that comes back where this cause alone is left out and
 *     the others are fitted anew, 0 to 1
 * @param rivals causes of no more numbers that would account for it as well: the readings can't
 *     tell which it is
 */
public record FoundCause(
    Cause cause, List<Double> values, List<Double> margins, double share, List<Cause> rivals) {
  /** A cause that stands without a rival. */
  public FoundCause(Cause cause, List<Double> values, List<Double> margins, double share) {
    this(cause, values, margins, share, List.of());
  }

  public FoundCause {
    Objects.requireNonNull(cause, "cause");
    values = List.copyOf(values);
    margins = List.copyOf(margins);
    rivals = List.copyOf(rivals);
    if (values.size() != cause.kind().parameters() || margins.size() != values.size()) {
      throw new IllegalArgumentException(cause + ": " + values.size() + " values");
    }
    if (!(share >= 0 && share <= 1)) {
      throw new IllegalArgumentException(cause + ": share of " + share);
    }
  }
}
