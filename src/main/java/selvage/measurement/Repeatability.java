package selvage.measurement;

/**
 * How readings of the same patches spread.
 *
 * @param patches that were read more than once
 * @param readings of these patches
 * @param meanDe00 mean ΔE00 between a reading and the mean of its patch
 * @param maxDe00 the greatest of them
 * @param deviationDe00 standard deviation of one reading, pooled over the patches: √(Σd² / Σ(k−1)),
 *     with d that ΔE00 and k the readings of a patch
 * @param deviationDe76 the same in ΔE*ab
 */
public record Repeatability(
    int patches,
    int readings,
    double meanDe00,
    double maxDe00,
    double deviationDe00,
    double deviationDe76) {
  public Repeatability {
    if (patches < 1 || readings < 2 * patches || !(meanDe00 >= 0) || !(maxDe00 >= meanDe00)) {
      throw new IllegalArgumentException(readings + " readings of " + patches + " patches");
    }
    if (!Double.isFinite(deviationDe00) || !Double.isFinite(deviationDe76)) {
      throw new IllegalArgumentException("deviation of " + deviationDe00 + ", " + deviationDe76);
    }
  }
}
