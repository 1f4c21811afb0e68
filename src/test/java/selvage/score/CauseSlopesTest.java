package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import selvage.ink.InkMixture;
import selvage.score.Cause.Kind;

class CauseSlopesTest {
  private static final PrintModel MODEL = StraightPress.model();
  private static final double[] TINTS = MODEL.tints(StraightPress.mixtures());

  /** Against the difference quotient of whole prints, about a print where everything is off. */
  @Test
  void of_everyParameter_theDifferenceQuotientOfPrints() {
    double[] at = new double[MODEL.parameters()];
    for (int i = 0; i < 12; i++) {
      at[i] = 0.01 * (i % 5 - 2);
    }
    System.arraycopy(new double[] {-1, 0.5, 2, 0.4, -0.7, 0.6, 0.02, 1, -2, 1.5}, 0, at, 12, 10);
    double[] scales = scales(0.05);
    int rows = TINTS.length / MODEL.inks().size();
    double[] weights = new double[rows];
    for (int row = 0; row < rows; row++) {
      weights[row] = row == 3 ? 0 : 1 + row % 3;
    }
    int[] free = new int[scales.length];
    Arrays.setAll(free, i -> i);
    double[][] slopes = new CauseSlopes(MODEL, TINTS, weights, scales).of(at, free);
    for (int parameter : free) {
      double[] up = moved(at, parameter, 0.2 * scales[parameter]);
      double[] down = moved(at, parameter, -0.2 * scales[parameter]);
      for (int i = 0; i < up.length; i++) {
        double quotient = weights[i / 3] * (up[i] - down[i]) / 0.4;
        assertThat(slopes[parameter][i])
            .as("parameter %d, row %d, axis %d", parameter, i / 3, i % 3)
            .isCloseTo(quotient, within(0.02 + 0.03 * Math.abs(quotient)));
      }
    }
  }

  /** A tint of 50 % moves by the whole change of tone, one of 25 % by three quarters of it. */
  @Test
  void of_tone_slopesOfTheStraightPress() {
    double[] tints =
        MODEL.tints(
            List.of(StraightPress.one("Cyan", 50), InkMixture.PAPER, InkMixture.cmyk(25, 9, 0, 0)));
    double[][] slopes =
        new CauseSlopes(MODEL, tints, new double[] {1, 1, 2}, scales(0.05))
            .of(new double[MODEL.parameters()], new int[] {0});
    assertThat(slopes[0])
        .containsExactly(
            new double[] {-2, -1.75, -2.25, 0, 0, 0, -3, -2.625, -3.375}, within(0.02));
  }

  /** In closed form: a cast moves its axis by its scale, a turn moves a* by −b* and b* by a*. */
  @Test
  void of_castAndHue_closedForm() {
    double[] tints = MODEL.tints(List.of(InkMixture.PAPER, StraightPress.one("Cyan", 50)));
    double[] at = StraightPress.at(MODEL, Kind.CAST, "", 1, 2, 3);
    double[][] slopes =
        new CauseSlopes(MODEL, tints, new double[] {1, 2}, scales(0.5))
            .of(at, new int[] {15, 16, 17, 18});
    assertThat(slopes[0]).containsExactly(new double[] {0.5, 0, 0, 1, 0, 0}, within(1e-12));
    assertThat(slopes[1]).containsExactly(new double[] {0, 0.5, 0, 0, 1, 0}, within(1e-12));
    assertThat(slopes[2]).containsExactly(new double[] {0, 0, 0.5, 0, 0, 1}, within(1e-12));
    assertThat(slopes[3]).containsExactly(new double[] {0, 1, 0, 0, 24.5, -17.5}, within(1e-3));
  }

  private static double[] scales(double scale) {
    double[] scales = new double[MODEL.parameters()];
    Arrays.fill(scales, scale);
    return scales;
  }

  private static double[] moved(double[] at, int parameter, double step) {
    double[] other = at.clone();
    other[parameter] += step;
    return MODEL.print(other, TINTS);
  }
}
