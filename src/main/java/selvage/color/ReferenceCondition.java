package selvage.color;

import java.util.Locale;
import selvage.ink.Tint;

/**
 * A reference printing condition: what the press is agreed to print for given process tints.
 * Implementations are immutable and safe for use by several threads.
 */
public interface ReferenceCondition {
  /** Where the condition was found. */
  enum Origin {
    BUILT_IN,
    OUTPUT_INTENT,
    FILE;

    /**
     * Returns the word that stands in JSON: {@code built-in}, {@code output-intent}, {@code file}.
     */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** The condition's name as the trade or its file gives it, for example {@code FOGRA39}. */
  String name();

  Origin origin();

  /**
   * The aim for process tints, absolute colorimetric.
   *
   * @param c percent, 0 to 100, and so the others
   * @return source {@link AimSource#CONDITION_NODE} where the tints are a measured node, else
   *     {@link AimSource#CONDITION}
   */
  Aim aim(double c, double m, double y, double k);

  /**
   * The aims of many mixtures, as {@link #aim} gives them, in single precision.
   *
   * @param tints C, M, Y, K a row, in {@link selvage.ink.Tint} units
   * @param rows how many rows to take
   * @param lab takes L*, a*, b* a row
   * @param sources takes a source a row
   */
  default void aims(char[] tints, int rows, float[] lab, AimSource[] sources) {
    for (int row = 0; row < rows; row++) {
      Aim aim =
          aim(
              Tint.toPercent(tints[4 * row]),
              Tint.toPercent(tints[4 * row + 1]),
              Tint.toPercent(tints[4 * row + 2]),
              Tint.toPercent(tints[4 * row + 3]));
      lab[3 * row] = (float) aim.lab().l();
      lab[3 * row + 1] = (float) aim.lab().a();
      lab[3 * row + 2] = (float) aim.lab().b();
      sources[row] = aim.source();
    }
  }

  /** The substrate's colour: the aim of no ink. */
  default Lab paper() {
    return aim(0, 0, 0, 0).lab();
  }

  /**
   * Process tints that print a colour (for device-independent and RGB objects): media-relative
   * colorimetric, black point adapted, so that white is exactly no ink.
   *
   * @param relative colour relative to the medium: L* 100 is paper, L* 0 the darkest that the
   *     source medium has
   * @return C, M, Y, K as fractions 0 to 1; the nearest the condition can print
   */
  float[] separate(Lab relative);

  /** The way from sRGB to this condition; what it has worked out may serve later callers. */
  default ProcessSeparation fromSrgb() {
    return new ProcessSeparation(SourceColor.srgb(), this);
  }
}
