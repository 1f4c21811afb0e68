package selvage.score;

/**
 * Small CIELAB differences about a colour in units of ΔE00: its weighting functions for lightness,
 * chroma and hue (ISO/CIE 11664-6), with the hue's T taken for 1 and without the rotation term for
 * blues.
 */
final class PerceptualScale {
  private static final double POW_25_7 = Math.pow(25, 7);

  private PerceptualScale() {}

  /**
   * Scales differences.
   *
   * @param labs the colours, L*, a*, b* a row
   * @param differences ΔL*, Δa*, Δb* a row
   * @param row which row
   * @param weight of the row
   * @param out takes three values for the row
   */
  static void scale(double[] labs, double[] differences, int row, double weight, double[] out) {
    double l = labs[3 * row];
    double a = labs[3 * row + 1];
    double b = labs[3 * row + 2];
    double c7 = Math.pow(Math.hypot(a, b), 7);
    double g = 1.5 - 0.5 * Math.sqrt(c7 / (c7 + POW_25_7));
    double chroma = Math.hypot(g * a, b);
    double da = g * differences[3 * row + 1];
    double db = differences[3 * row + 2];
    double cos = chroma > 1e-6 ? g * a / chroma : 1;
    double sin = chroma > 1e-6 ? b / chroma : 0;
    double square = (l - 50) * (l - 50);
    out[3 * row] = weight * differences[3 * row] / (1 + 0.015 * square / Math.sqrt(20 + square));
    out[3 * row + 1] = weight * (cos * da + sin * db) / (1 + 0.045 * chroma);
    out[3 * row + 2] = weight * (cos * db - sin * da) / (1 + 0.015 * chroma);
  }
}
