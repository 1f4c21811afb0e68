package selvage.separation;

/**
 * Pixels an inch along an image's stored columns and rows.
 *
 * @param stated whether the file says so; otherwise it was assumed
 */
record ImageResolution(double x, double y, boolean stated) {
  /** Taken where a file states none (common practice for print, no source). */
  static final ImageResolution ASSUMED = new ImageResolution(300, 300, false);

  private static final double LEAST = 2;
  private static final double MOST = 30_000;
  private static final double CM_PER_INCH = 2.54;

  /**
   * The resolution that a file states, or {@link #ASSUMED} where it states none or one that no
   * print can have.
   *
   * @param perCm whether the figures count a centimetre, not an inch
   */
  static ImageResolution of(double x, double y, boolean perCm) {
    double unit = perCm ? CM_PER_INCH : 1;
    boolean plausible =
        x * unit >= LEAST && x * unit <= MOST && y * unit >= LEAST && y * unit <= MOST;
    return plausible ? new ImageResolution(x * unit, y * unit, true) : ASSUMED;
  }
}
