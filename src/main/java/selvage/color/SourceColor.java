package selvage.color;

import selvage.finding.InputException;

/**
 * A colour space of objects that are not given in the printing condition's inks. Colours come out
 * media-relative: the space's white is 100, 0, 0 and its black L* 0, which is what {@link
 * ReferenceCondition#separate} takes. Implementations are immutable and safe for use by several
 * threads.
 */
public interface SourceColor {
  /** The number of components, 1, 3 or 4. */
  int components();

  /** The least value of a component. */
  default double low(int component) {
    return 0;
  }

  /** The greatest value of a component. */
  default double high(int component) {
    return 1;
  }

  /**
   * The colour of component values.
   *
   * @param values the space's components within {@link #low} to {@link #high}; values outside count
   *     as the nearest limit
   * @return media-relative L*, a*, b*
   */
  double[] relativeLab(double... values);

  /** sRGB (IEC 61966-2-1) [srgb]; also for device RGB without a profile. */
  static SourceColor srgb() {
    return CalibratedColor.srgb();
  }

  /** Gray of a power function (PDF's CalGray, ISO 32000-1, 8.6.5.2) [iso32000]. */
  static SourceColor calGray(double gamma) {
    return CalibratedColor.gray(gamma);
  }

  /**
   * RGB by power functions and a matrix (PDF's CalRGB, ISO 32000-1, 8.6.5.3) [iso32000].
   *
   * @param whitePoint X, Y, Z with Y = 1
   * @param gamma three exponents
   * @param matrix X, Y, Z of red, then of green, then of blue
   * @throws InputException where the numbers are no white or not finite
   */
  static SourceColor calRgb(double[] whitePoint, double[] gamma, double[] matrix)
      throws InputException {
    return CalibratedColor.rgb(whitePoint, gamma, matrix);
  }

  /**
   * CIELAB (PDF's Lab, ISO 32000-1, 8.6.5.4) [iso32000]. Its values are relative to its own white
   * point, which therefore plays no part.
   *
   * @param range least and greatest a*, then b*
   */
  static SourceColor lab(double[] range) {
    return new LabColor(range[0], range[1], range[2], range[3]);
  }

  /**
   * The device space of an ICC profile of 1, 3 or 4 components, media-relative colorimetric.
   *
   * @param name for messages
   * @throws InputException where the profile is broken or has another number of components
   */
  static SourceColor icc(String name, byte[] profile) throws InputException {
    return IccColor.of(IccProfile.parse(name, profile));
  }
}
