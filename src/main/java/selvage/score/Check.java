package selvage.score;

import java.util.Objects;

/**
 * A limit applied.
 *
 * @param limit the limit
 * @param patches how many patches were judged by it
 * @param value in the metric's unit
 * @param verdict on the value
 */
public record Check(Limit limit, int patches, double value, Verdict verdict) {
  public Check {
    Objects.requireNonNull(limit, "limit");
    Objects.requireNonNull(verdict, "verdict");
    if (patches < 1 || !(value >= 0)) {
      throw new IllegalArgumentException(limit.name() + ": " + value + " of " + patches);
    }
  }
}
