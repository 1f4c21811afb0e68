package selvage.color;

/**
 * CIE 1931 tristimulus values (2° observer, D50), scaled so that the perfect reflecting diffuser
 * has Y = 100.
 *
 * @param x X, about 0 to 96.4
 * @param y Y, 0 to 100
 * @param z Z, about 0 to 82.5
 */
public record Xyz(double x, double y, double z) {
  public Xyz {
    if (!Double.isFinite(x) || !Double.isFinite(y) || !Double.isFinite(z)) {
      throw new IllegalArgumentException("XYZ of " + x + ", " + y + ", " + z);
    }
  }
}
