package selvage.color;

/**
 * A CIELAB colour, D50, CIE 1931 2° observer (ISO 13655). Absolute unless a method says otherwise:
 * the reference white is the perfect reflecting diffuser, so paper is not 100, 0, 0.
 *
 * @param l lightness L*, nominally 0 to 100
 * @param a a*, red to green
 * @param b b*, yellow to blue
 */
public record Lab(double l, double a, double b) {
  public Lab {
    if (!Double.isFinite(l) || !Double.isFinite(a) || !Double.isFinite(b)) {
      throw new IllegalArgumentException("Lab of " + l + ", " + a + ", " + b);
    }
  }

  /** Chroma C*ab. */
  public double chroma() {
    return Math.hypot(a, b);
  }
}
