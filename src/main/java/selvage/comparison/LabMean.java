package selvage.comparison;

import java.util.ArrayList;
import java.util.List;

/**
 * A mean of reading minus aim.
 *
 * @param dl of ΔL*
 * @param da of Δa*
 * @param db of Δb*
 */
public record LabMean(double dl, double da, double db) {
  /** Differences below this are called none (house rule: under what an eye or a reader tells). */
  private static final double LEAST = 0.3;

  /** The value of an axis: 0 for L*, 1 for a*, 2 for b*. */
  public double axis(int axis) {
    return axis == 0 ? dl : axis == 1 ? da : db;
  }

  /** The direction in words, for example {@code darker, yellower}. */
  public String words() {
    List<String> words = new ArrayList<>();
    for (int axis = 0; axis < 3; axis++) {
      if (Math.abs(axis(axis)) >= LEAST) {
        words.add(word(axis, axis(axis)));
      }
    }
    return words.isEmpty() ? "no direction" : String.join(", ", words);
  }

  /** What a change on one axis is called. */
  public static String word(int axis, double value) {
    return switch (axis) {
      case 0 -> value > 0 ? "lighter" : "darker";
      case 1 -> value > 0 ? "redder" : "greener";
      default -> value > 0 ? "yellower" : "bluer";
    };
  }
}
