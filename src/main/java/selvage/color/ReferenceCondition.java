package selvage.color;

import java.util.Locale;

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
}
