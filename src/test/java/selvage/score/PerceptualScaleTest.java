package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;

/** The weighting functions of CIEDE2000, by hand and against the whole formula. */
class PerceptualScaleTest {
  /** At a grey of L* 50 all weights are 1, and a* counts one and a half times. */
  @Test
  void scale_grey_onlyRednessStretched() {
    assertThat(scaled(new double[] {50, 0, 0}, new double[] {2, 3, -4}, 1))
        .containsExactly(new double[] {2, 4.5, -4}, within(1e-9));
  }

  /** SL at L* 60 is 1 + 0.015 · 100 / √120; a weight multiplies all three. */
  @Test
  void scale_lightnessOff50_dividedByItsWeight() {
    double sl = 1 + 1.5 / Math.sqrt(120);
    assertThat(scaled(new double[] {60, 0, 0}, new double[] {1, 1, 1}, 3))
        .containsExactly(new double[] {3 / sl, 4.5, 3}, within(1e-9));
    assertThat(scaled(new double[] {40, 0, 0}, new double[] {1, 0, 0}, 1)[0])
        .isCloseTo(1 / sl, within(1e-9));
  }

  /**
   * At b* 40 the chroma's weight is 1 + 0.045 · 40 = 2.8, the hue's 1 + 0.015 · 40 = 1.6, and a*
   * counts 1.5 − 0.5 · √(40⁷ / (40⁷ + 25⁷)) = 1.00906 times.
   */
  @Test
  void scale_yellow_chromaAndHueByHand() {
    assertThat(scaled(new double[] {50, 0, 40}, new double[] {0, 1.6, 2.8}, 1))
        .containsExactly(new double[] {0, 1, -1.00906}, within(1e-5));
    assertThat(scaled(new double[] {50, 0, -40}, new double[] {0, 1.6, 2.8}, 1))
        .containsExactly(new double[] {0, -1, 1.00906}, within(1e-5));
  }

  /** Where hue stays, neither the hue's T nor the rotation is in the way: CIEDE2000 itself. */
  @ParameterizedTest
  @CsvSource({"30, 20, 10", "70, -12, 4", "55, -40, -30", "80, 5, 70", "20, 3, -9"})
  void scale_differenceInLightnessAndChroma_ciede2000(double l, double a, double b) {
    double part = 1e-4;
    double[] difference = {0.01, part * a, part * b};
    double[] out = scaled(new double[] {l, a, b}, difference, 1);
    double whole =
        ColorDifference.de00(
            new Lab(l - 0.005, a * (1 - part / 2), b * (1 - part / 2)),
            new Lab(l + 0.005, a * (1 + part / 2), b * (1 + part / 2)));
    double size = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
    assertThat(size).isCloseTo(whole, within(0.002 * whole));
    assertThat(out[2]).isCloseTo(0, within(1e-9));
  }

  /** Scales one difference, in the second of two rows. */
  private static double[] scaled(double[] lab, double[] difference, double weight) {
    double[] labs = {10, 11, 12, lab[0], lab[1], lab[2]};
    double[] differences = {13, 14, 15, difference[0], difference[1], difference[2]};
    double[] out = {7, 8, 9, 0, 0, 0};
    PerceptualScale.scale(labs, differences, 1, weight, out);
    assertThat(out).startsWith(7, 8, 9);
    return new double[] {out[3], out[4], out[5]};
  }
}
