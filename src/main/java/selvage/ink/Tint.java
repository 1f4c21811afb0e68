package selvage.ink;

/**
 * Tints as whole numbers. One hundred percent is {@value #FULL} units, the least number that both
 * 255 and 1000 divide: every 8-bit value and every tenth of a percent is exact, so 33 % stays 33.0
 * % and the value 84 of 255 stays 84 of 255. It fits in 16 bits without sign.
 */
public final class Tint {
  /** Units of a solid (100 %). */
  public static final int FULL = 51_000;

  /** Units of one step of 255. */
  public static final int PER_BYTE = FULL / 255;

  private Tint() {}

  /**
   * Returns the units nearest to a tint, clipped to 0..{@value #FULL}.
   *
   * @param fraction a tint from 0 to 1; a value that is not a number counts as 0
   */
  public static int ofFraction(double fraction) {
    if (!(fraction > 0)) {
      return 0;
    }
    return fraction >= 1 ? FULL : (int) (fraction * FULL + 0.5);
  }

  /** Returns the units nearest to a tint in percent, clipped to 0..{@value #FULL}. */
  public static int ofPercent(double percent) {
    return ofFraction(percent / 100);
  }

  /** Returns the tint in percent, 0 to 100, rounded to 0.0001. */
  public static double toPercent(int units) {
    return Math.round(units * 1_000_000.0 / FULL) / 10_000.0;
  }
}
