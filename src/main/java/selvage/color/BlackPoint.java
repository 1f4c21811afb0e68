package selvage.color;

/**
 * Black point compensation: XYZ scaled so that one medium's darkest colour falls on the other's,
 * the white staying [iso18619]. Black points are neutral and given by their Y, 0 to 1.
 */
final class BlackPoint {
  /** A black lighter than this is no black; common practice of colour engines, from memory. */
  private static final double LIGHTEST = 50;

  private BlackPoint() {}

  /** A colour with black at L* 0, for a medium whose darkest has this Y. */
  static double[] raise(double l, double a, double b, double blackY) {
    return scale(l, a, b, 1 - blackY, blackY);
  }

  /** A colour of a medium whose darkest has this Y, with black brought down to L* 0. */
  static double[] lower(double l, double a, double b, double blackY) {
    return scale(l, a, b, 1 / (1 - blackY), -blackY / (1 - blackY));
  }

  /** The Y of a lightness that serves as black, L* kept within 0 to 50. */
  static double ofLightness(double l) {
    return ReferenceWhite.inverse((Math.min(LIGHTEST, Math.max(0, l)) + 16) / 116);
  }

  /** The black of a printing profile: what it prints for L* 0, seen through its ink table. */
  static double ofDarkest(IccPipeline toLab, IccPipeline fromLab) {
    double[] channels = IccPipeline.channels();
    double[] scratch = IccPipeline.channels();
    double[] lab = new double[3];
    fromLab.encoding().encode(0, 0, 0, channels);
    fromLab.apply(channels, scratch);
    toLab.apply(channels, scratch);
    toLab.encoding().decode(channels, lab);
    return ofLightness(lab[0]);
  }

  private static double[] scale(double l, double a, double b, double factor, double offset) {
    double fy = (l + 16) / 116;
    double x = ReferenceWhite.f(factor * ReferenceWhite.inverse(fy + a / 500) + offset);
    double y = ReferenceWhite.f(factor * ReferenceWhite.inverse(fy) + offset);
    double z = ReferenceWhite.f(factor * ReferenceWhite.inverse(fy - b / 200) + offset);
    return new double[] {116 * y - 16, 500 * (x - y), 200 * (y - z)};
  }
}
