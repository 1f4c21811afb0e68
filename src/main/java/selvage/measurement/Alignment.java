package selvage.measurement;

/**
 * How readings were matched to patches.
 *
 * @param how {@code by-id}, {@code by-name}, {@code by-device}, {@code by-order} or {@code
 *     by-order-reversed}
 * @param confidence 0 to 1; 1 where the file itself says which patch is which. By order it is 1 − d
 *     / (d + r), with d the mean ΔE*ab between readings and aims in the order taken and r in the
 *     opposite order (our own measure)
 */
public record Alignment(String how, double confidence) {
  public Alignment {
    if (how.isBlank() || !(confidence >= 0 && confidence <= 1)) {
      throw new IllegalArgumentException(how + " with confidence " + confidence);
    }
  }
}
