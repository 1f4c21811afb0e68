package selvage.color;

/**
 * The two D50 whites that the trade uses for CIELAB. They differ in Z by 0.031, which moves b* by
 * up to 0.03: values are converted back with the white that they came with.
 */
public enum ReferenceWhite {
  /** For measured spectra and XYZ: 96.422, 100, 82.521 (ISO 13655, ASTM E308) [iso13655]. */
  ISO_13655(96.422, 100, 82.521),
  /** Of the ICC profile connection space: 96.42, 100, 82.49 (ICC.1:2022, 7.2.16) [icc1]. */
  ICC_PCS(96.42, 100, 82.49);

  /** CIE 15:2018, 8.2.1.1: the ratio below which the cube root gives way to a line [cie15]. */
  private static final double EPSILON = 216.0 / 24389.0;

  /** CIE 15:2018, 8.2.1.1: the slope of L* against Y/Yn at black [cie15]. */
  private static final double KAPPA = 24389.0 / 27.0;

  private final double xn;
  private final double yn;
  private final double zn;

  ReferenceWhite(double x, double y, double z) {
    this.xn = x;
    this.yn = y;
    this.zn = z;
  }

  /** The white's tristimulus values, Y = 100. */
  public Xyz xyz() {
    return new Xyz(xn, yn, zn);
  }

  /** CIELAB of tristimulus values (CIE 15:2018, 8.2.1.1) [cie15]. */
  public Lab toLab(Xyz color) {
    double fx = f(color.x() / xn);
    double fy = f(color.y() / yn);
    double fz = f(color.z() / zn);
    return new Lab(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
  }

  /** The reverse of {@link #toLab}. */
  public Xyz toXyz(Lab color) {
    double fy = (color.l() + 16) / 116;
    return new Xyz(
        xn * inverse(fy + color.a() / 500), yn * inverse(fy), zn * inverse(fy - color.b() / 200));
  }

  /**
   * Multiplies X, Y and Z of a CIELAB colour in place. The white cancels out.
   *
   * @param labs L*, a*, b* a row
   * @param row which row
   * @param factors on X, Y, Z; a product below 0 counts as 0
   */
  public static void multiply(double[] labs, int row, double[] factors) {
    int at = 3 * row;
    double y = (labs[at] + 16) / 116;
    double fx = f(Math.max(0, factors[0] * inverse(y + labs[at + 1] / 500)));
    double fz = f(Math.max(0, factors[2] * inverse(y - labs[at + 2] / 200)));
    double fy = f(Math.max(0, factors[1] * inverse(y)));
    labs[at] = 116 * fy - 16;
    labs[at + 1] = 500 * (fx - fy);
    labs[at + 2] = 200 * (fy - fz);
  }

  /** The compressive function of CIELAB: a cube root, with a line near black. */
  static double f(double ratio) {
    return ratio > EPSILON ? Math.cbrt(ratio) : (KAPPA * ratio + 16) / 116;
  }

  /** The reverse of {@link #f}. */
  static double inverse(double value) {
    double cube = value * value * value;
    return cube > EPSILON ? cube : (116 * value - 16) / KAPPA;
  }
}
