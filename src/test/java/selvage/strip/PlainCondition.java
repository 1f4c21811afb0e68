package selvage.strip;

import java.util.Map;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;

/** A printing condition by a plain formula, for tests that need colours but no particular ones. */
public final class PlainCondition implements ReferenceCondition {
  @Override
  public String name() {
    return "plain";
  }

  @Override
  public Origin origin() {
    return Origin.FILE;
  }

  @Override
  public Aim aim(double c, double m, double y, double k) {
    return new Aim(lab(c / 100, m / 100, y / 100, k / 100), AimSource.CONDITION);
  }

  @Override
  public float[] separate(Lab relative) {
    return new float[] {0, 0, 0, (float) (1 - relative.l() / 100)};
  }

  /** The colour of any mixture; a spot looks like magenta and yellow, each by its name's hash. */
  public static Lab color(InkMixture mixture) {
    double[] cmyk = mixture.cmyk();
    for (Map.Entry<Colorant, Integer> ink : mixture.units().entrySet()) {
      if (ink.getKey().isSpot()) {
        int hash = ink.getKey().name().hashCode() & 0xFF;
        double tint = mixture.percent(ink.getKey());
        cmyk[1] = Math.min(100, cmyk[1] + tint * (0.2 + 0.8 * hash / 255));
        cmyk[2] = Math.min(100, cmyk[2] + tint * (1 - 0.8 * hash / 255));
      }
    }
    return lab(cmyk[0] / 100, cmyk[1] / 100, cmyk[2] / 100, cmyk[3] / 100);
  }

  private static Lab lab(double c, double m, double y, double k) {
    double light = (1 - 0.42 * c) * (1 - 0.5 * m) * (1 - 0.07 * y) * (1 - 0.85 * k);
    double left = 1 - 0.9 * k;
    return new Lab(
        95 * light,
        left * (-36 * c * (1 - 0.3 * m) + 74 * m * (1 - 0.25 * c) - 4 * y),
        left * (-2 - 48 * c * (1 - 0.5 * y) - 4 * m + 93 * y * (1 - 0.3 * c)));
  }
}
