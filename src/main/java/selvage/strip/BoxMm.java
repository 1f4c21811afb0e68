package selvage.strip;

/**
 * A rectangle in millimetres.
 *
 * @param xMm left edge from the strip's lower left corner
 * @param yMm lower edge from the same corner
 * @param widthMm above 0
 * @param heightMm above 0
 */
public record BoxMm(double xMm, double yMm, double widthMm, double heightMm) {
  public BoxMm {
    if (!Double.isFinite(xMm) || !Double.isFinite(yMm) || !(widthMm > 0) || !(heightMm > 0)) {
      throw new IllegalArgumentException(
          "box of " + widthMm + " × " + heightMm + " mm at " + xMm + ", " + yMm);
    }
  }
}
