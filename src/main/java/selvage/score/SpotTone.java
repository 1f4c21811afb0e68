package selvage.score;

import selvage.color.Lab;

/**
 * The tone value of a spot ink's tint, SCTV of ISO 20654 [iso20654]: with V = (L* + 0.232 a*, L*,
 * L* − 0.58 b*), 100 times the distance of the tint from the paper over that of the solid.
 *
 * @param paper unprinted
 * @param solid of the ink
 */
public record SpotTone(Lab paper, Lab solid) {
  /** Below this distance of solid and paper the tone value means nothing. */
  private static final double LEAST = 1;

  /** Whether solid and paper differ enough. */
  public boolean isDefined() {
    return distance(solid) >= LEAST;
  }

  /** In percent; 0 is paper, 100 the solid. */
  public double of(Lab tint) {
    return 100 * distance(tint) / distance(solid);
  }

  private double distance(Lab color) {
    double l = color.l() - paper.l();
    double x = l + 116.0 / 500 * (color.a() - paper.a());
    double z = l - 116.0 / 200 * (color.b() - paper.b());
    return Math.sqrt(x * x + l * l + z * z);
  }
}
