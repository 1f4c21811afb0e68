package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import selvage.score.Cause.Kind;

/** A tone that moved, and patches that were misread beside it. */
class OddPatchesTest {
  private static final PrintModel MODEL = StraightPress.model();
  private static final double[] TINTS = MODEL.tints(StraightPress.mixtures());
  private static final int ROWS = StraightPress.mixtures().size();

  @Test
  void find_threeOfThirty_leftOutAndOfNoWeight() {
    double[] weights = ones();
    OddPatches.Found found = find(errors(19, 4, 11), weights);
    assertThat(found.rows()).containsExactly(4, 11, 19);
    assertThat(found.result().freedom()).isEqualTo(3 * (ROWS - 3) - 1);
    double[] left = ones();
    left[4] = 0;
    left[11] = 0;
    left[19] = 0;
    assertThat(weights).containsExactly(left);
  }

  /** More than a tenth are no oddity: all count, as if none had been tried. */
  @Test
  void find_fourOfThirty_allCount() {
    double[] weights = ones();
    OddPatches.Found found = find(errors(4, 11, 19, 25), weights);
    assertThat(found.rows()).isEmpty();
    assertThat(weights).containsOnly(1);
    int parameters =
        found.result().chosen().stream()
            .mapToInt(i -> MODEL.causes().get(i).kind().parameters())
            .sum();
    assertThat(found.result().freedom()).isEqualTo(3 * ROWS - parameters);
  }

  /**
   * A solid seems odd while others pull at the fit, and is sound once they are left out: it is
   * taken back.
   */
  @Test
  void find_soundPatchThatOthersMadeLookOdd_takenBack() {
    double[] weights = ones();
    double[] errors = errors("Cyan", 0.02);
    errors[3 * 23 + 1] += 6;
    errors[3 * 14] -= 10;
    errors[3 * 3 + 2] += 2;
    assertThat(find(errors, weights).rows()).containsExactly(14, 23);
    assertThat(weights[4]).isOne();
  }

  /**
   * What all causes together could explain, a spot's solid that is a little off, is odd beside the
   * one cause that is there.
   */
  @Test
  void find_patchThatACauseWithoutNeedWouldExplain_leftOutInTheEnd() {
    double[] weights = ones();
    double[] errors = errors("Black", 0.02);
    errors[3 * 11 + 1] += 6;
    errors[3 * 20] += 2;
    assertThat(find(errors, weights).rows()).containsExactly(11, 20);
  }

  @Test
  void find_noneMisread_allCount() {
    double[] weights = ones();
    OddPatches.Found found = find(errors(), weights);
    assertThat(found.rows()).isEmpty();
    assertThat(weights).containsOnly(1);
    assertThat(found.result().chosen()).containsExactly(0);
  }

  private static OddPatches.Found find(double[] errors, double[] weights) {
    CauseFit fit = new CauseFit(MODEL, TINTS, errors, weights, new Quantiles());
    return new OddPatches(fit, weights).find();
  }

  private static double[] errors(int... misread) {
    double[] errors = errors("Cyan", 0.05);
    for (int row : misread) {
      errors[3 * row + 2] += row % 2 == 0 ? 25 : -25;
    }
    return errors;
  }

  /** What a tone that moved, and a little noise, make of all patches. */
  private static double[] errors(String ink, double tone) {
    double[] errors =
        StraightPress.errors(MODEL, StraightPress.at(MODEL, Kind.TONE, ink, tone), TINTS);
    for (int i = 0; i < errors.length; i++) {
      errors[i] += i * 5 % 7 < 4 ? 0.1 : -0.1;
    }
    return errors;
  }

  private static double[] ones() {
    double[] ones = new double[ROWS];
    Arrays.fill(ones, 1);
    return ones;
  }
}
