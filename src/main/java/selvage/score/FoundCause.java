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
 */
public record FoundCause(Cause cause, List<Double> values, List<Double> margins, double share) {
  public FoundCause {
    Objects.requireNonNull(cause, "cause");
    values = List.copyOf(values);
    margins = List.copyOf(margins);
    if (values.size() != cause.kind().parameters() || margins.size() != values.size()) {
      throw new IllegalArgumentException(cause + ": " + values.size() + " values");
    }
    if (!(share >= 0 && share <= 1)) {
      throw new IllegalArgumentException(cause + ": share of " + share);
    }
  }
}
