package selvage.score;

import java.util.Objects;
import java.util.OptionalDouble;
import selvage.strip.PatchSet;

/**
 * What the measured patches of one set come to, in ΔE00. The figures are over all of them; those
 * with predicted aims are among them though they do not count for the verdict.
 *
 * @param set job or standard
 * @param patches how many were measured
 * @param judged how many of them count for the verdict
 * @param meanDe00 the mean
 * @param p95De00 the smallest value that at least 95 % of the patches do not exceed
 * @param maxDe00 the greatest
 * @param areaMeanDe00 the mean, weighed by the share of the inked area for which a patch stands;
 *     empty for the standard set
 * @param areaP95De00 the same with the 95th percentile
 * @param verdict of the set's checks
 */
public record SetScore(
    PatchSet set,
    int patches,
    int judged,
    double meanDe00,
    double p95De00,
    double maxDe00,
    OptionalDouble areaMeanDe00,
    OptionalDouble areaP95De00,
    Verdict verdict) {
  public SetScore {
    Objects.requireNonNull(set, "set");
    Objects.requireNonNull(areaMeanDe00, "areaMeanDe00");
    Objects.requireNonNull(areaP95De00, "areaP95De00");
    Objects.requireNonNull(verdict, "verdict");
    if (patches < 1 || judged < 0 || judged > patches) {
      throw new IllegalArgumentException(set + ": " + judged + " of " + patches + " patches");
    }
  }
}
