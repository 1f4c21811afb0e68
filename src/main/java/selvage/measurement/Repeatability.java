package selvage.measurement;

import java.util.List;

/**
 * How readings of the same patches spread.
 *
 * @param patches that were read more than once
 * @param readings of these patches, odd ones left out
 * @param meanDe00 mean ΔE00 between a reading and the mean of its patch
 * @param maxDe00 the greatest of them
 * @param deviationDe00 standard deviation of one reading, pooled over the patches: √(Σd² / Σ(k−1)),
 *     with d that ΔE00 and k the readings of a patch
 * @param deviationDe76 the same in ΔE*ab
 * @param sources files, and tables of them, that the readings come from
 * @param spreads the same a patch, in the strip's order
 * @param odd readings that were left out of the means
 */
public record Repeatability(
    int patches,
    int readings,
    double meanDe00,
    double maxDe00,
    double deviationDe00,
    double deviationDe76,
    List<String> sources,
    List<PatchSpread> spreads,
    List<OddReading> odd) {
  /**
   * How the readings of one patch spread.
   *
   * @param patchId of the patch; a patch of both sets stands here once
   * @param readings 2 or more
   * @param meanDe00 mean ΔE00 between a reading and their mean
   * @param maxDe00 the greatest of them
   */
  public record PatchSpread(String patchId, int readings, double meanDe00, double maxDe00) {}

  /**
   * A reading that lies far off the others of its patch.
   *
   * @param source the file
   * @param line in it, counted from 1
   * @param de00 from the mean of the others
   */
  public record OddReading(String patchId, String source, int line, double de00) {}

  public Repeatability {
    sources = List.copyOf(sources);
    spreads = List.copyOf(spreads);
    odd = List.copyOf(odd);
    if (patches < 1 || readings < 2 * patches || !(meanDe00 >= 0) || !(maxDe00 >= meanDe00)) {
      throw new IllegalArgumentException(readings + " readings of " + patches + " patches");
    }
    if (!Double.isFinite(deviationDe00) || !Double.isFinite(deviationDe76)) {
      throw new IllegalArgumentException("deviation of " + deviationDe00 + ", " + deviationDe76);
    }
    if (spreads.size() != patches) {
      throw new IllegalArgumentException(spreads.size() + " spreads of " + patches + " patches");
    }
  }
}
