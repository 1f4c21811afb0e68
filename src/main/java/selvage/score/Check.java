package selvage.score;

import java.util.Objects;

/**
 * A limit applied.
 *
 * @param limit the limit
 * @param patches how many patches were judged by it
 * @param value in the metric's unit
 * @param guardBand half the width of the zone around the limit where nothing is decided: the
 *     limit's own, or the expanded uncertainty of the value where that is wider
 * @param verdict on the value
 */
public record Check(Limit limit, int patches, double value, double guardBand, Verdict verdict) {
  public Check {
    Objects.requireNonNull(limit, "limit");
    Objects.requireNonNull(verdict, "verdict");
    if (patches < 1 || !(value >= 0) || !(guardBand >= 0)) {
      throw new IllegalArgumentException(limit.name() + ": " + value + " of " + patches);
    }
  }
}
