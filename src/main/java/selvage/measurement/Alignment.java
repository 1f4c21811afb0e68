package selvage.measurement;

/**
 * How readings were matched to patches.
 *
 * @param how {@code by-id}, {@code by-name}, {@code by-device}, {@code by-order}, {@code
 *     by-order-reversed}, or {@code by-rows} where rows were read in another order or direction, or
 *     patches twice or not at all
 * @param confidence 0 to 1. Where the file itself says which patch is which, 1 − d/r, with d the
 *     mean ΔE*ab between readings and their aims and r the same over all pairs of reading and patch
 *     (our own measure); otherwise the lesser of that and of what tells the alignment from the next
 *     best one, see {@link ColorAlignment}
 */
public record Alignment(String how, double confidence) {
  public Alignment {
    if (how.isBlank() || !(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException(how + " with confidence " + confidence);
    }
  }
}
