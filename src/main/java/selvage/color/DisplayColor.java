package selvage.color;

/**
 * Colours for a display: 8-bit sRGB (IEC 61966-2-1) [srgb], adapted from D50 to D65 by the Bradford
 * cone responses (ICC.1:2022, annex E) [icc1]. Lab is absolute, so that paper shows its own tint
 * and a perfect diffuser is full white; what the display can't show is clipped, component by
 * component. Immutable and safe for use by several threads.
 */
public final class DisplayColor {
  private static final int CODES = 256;

  private final double[][] toLinear = Matrix3.inverse(CalibratedColor.srgbToRatios());

  /** The linear light half way between each code and the next. */
  private final double[] thresholds = new double[CODES - 1];

  public DisplayColor() {
    for (int code = 0; code < thresholds.length; code++) {
      thresholds[code] = CalibratedColor.srgbLinear((code + 0.5) / (CODES - 1));
    }
  }

  /**
   * Encodes colours.
   *
   * @param lab L*, a*, b* a row, D50
   * @param rows how many
   * @param rgb takes red, green, blue a row, 0 to 255
   * @param at where the first row goes in {@code rgb}
   */
  public void encode(float[] lab, int rows, byte[] rgb, int at) {
    double[] ratios = new double[3];
    for (int row = 0; row < rows; row++) {
      double fy = (lab[3 * row] + 16.0) / 116;
      ratios[0] = ReferenceWhite.inverse(fy + lab[3 * row + 1] / 500.0);
      ratios[1] = ReferenceWhite.inverse(fy);
      ratios[2] = ReferenceWhite.inverse(fy - lab[3 * row + 2] / 200.0);
      for (int i = 0; i < 3; i++) {
        double[] weights = toLinear[i];
        rgb[at + 3 * row + i] =
            (byte) code(weights[0] * ratios[0] + weights[1] * ratios[1] + weights[2] * ratios[2]);
      }
    }
  }

  /** The code nearest to a linear light: one for each threshold that it reaches. */
  private int code(double linear) {
    int low = 0;
    int high = thresholds.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (linear >= thresholds[middle]) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
