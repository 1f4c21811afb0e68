package selvage.color;

/** Multiplies X, Y and Z of Lab colours, each by a factor of its own. Immutable. */
final class XyzScale {
  static final XyzScale NONE = new XyzScale(1, 1, 1);

  private final double x;
  private final double y;
  private final double z;

  XyzScale(double x, double y, double z) {
    this.x = x;
    this.y = y;
    this.z = z;
  }

  /** The scale that brings a light colour to 100, 0, 0. */
  static XyzScale toWhite(double[] lab) {
    double fy = (lab[0] + 16) / 116;
    return new XyzScale(
        1 / ReferenceWhite.inverse(fy + lab[1] / 500),
        1 / ReferenceWhite.inverse(fy),
        1 / ReferenceWhite.inverse(fy - lab[2] / 200));
  }

  /** Scales L*, a*, b* in place. */
  void apply(double[] lab) {
    double fy = (lab[0] + 16) / 116;
    double fx = ReferenceWhite.f(x * ReferenceWhite.inverse(fy + lab[1] / 500));
    double fz = ReferenceWhite.f(z * ReferenceWhite.inverse(fy - lab[2] / 200));
    fy = ReferenceWhite.f(y * ReferenceWhite.inverse(fy));
    lab[0] = 116 * fy - 16;
    lab[1] = 500 * (fx - fy);
    lab[2] = 200 * (fy - fz);
  }
}
