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
    double[] errors =
        StraightPress.errors(MODEL, StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.05), TINTS);
    for (int i = 0; i < errors.length; i++) {
      errors[i] += i * 5 % 7 < 4 ? 0.1 : -0.1;
    }
    for (int row : misread) {
      errors[3 * row + 2] += row % 2 == 0 ? 25 : -25;
    }
    return errors;
  }

  private static double[] ones() {
    double[] ones = new double[ROWS];
    Arrays.fill(ones, 1);
    return ones;
  }
}
