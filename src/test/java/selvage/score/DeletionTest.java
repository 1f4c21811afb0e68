package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Patches about their mean: what is left out lies off by n / (n − 1) of its residual. */
class DeletionTest {
  private static final int ROWS = 11;
  private static final Quantiles QUANTILES = new Quantiles();

  /** A patch is 6 further on one axis than the others: so far it lies from the mean of these. */
  @Test
  void size_aMean_theDistanceFromTheMeanOfTheOthers() {
    double[] values = values(0.3);
    values[3 * 4] += 6;
    Deletion deletion = deletion(means(), 0, values, ones());
    double square = 0;
    for (int axis = 0; axis < 3; axis++) {
      double mean = 0;
      for (int row = 0; row < ROWS; row++) {
        mean += row == 4 ? 0 : values[3 * row + axis] / (ROWS - 1);
      }
      square += Math.pow(values[3 * 4 + axis] - mean, 2);
    }
    assertThat(deletion.size(4)).isCloseTo(Math.sqrt(square), within(0.08));
    assertThat(deletion.oddest(2)).isEqualTo(4);
    assertThat(deletion.oddest(7)).isEqualTo(-1);
    assertThat(deletion.isOdd(4, 2)).isTrue();
    assertThat(deletion.isOdd(4, 7)).isFalse();
    assertThat(deletion.isOdd(3, 0)).isFalse();
  }

  /**
   * F with 3 and 27 degrees of freedom (eleven patches less a mean an axis, less the patch itself)
   * passes 10 to 11 at 0.01 %: by noise of 0.3 an axis a patch is odd from some 1.8 on.
   */
  @ParameterizedTest
  @CsvSource({"1.1, false", "2.6, true"})
  void oddest_noise_onlyWhatItDoesNotExplain(double off, boolean odd) {
    double[] values = values(0.3);
    values[3 * 7 + 1] = 1 + off;
    assertThat(deletion(means(), 0, values, ones()).oddest(0.1)).isEqualTo(odd ? 7 : -1);
  }

  /** Two that are far off do not hide each other by what they add to the noise. */
  @Test
  void oddest_twoFarOff_theFartherFirst() {
    double[] values = values(0.2);
    values[3 * 2] += 8;
    values[3 * 9 + 2] -= 9;
    assertThat(deletion(means(), 0, values, ones()).oddest(2)).isEqualTo(9);
    double[] weights = ones();
    weights[9] = 0;
    Deletion without = deletion(means(weights), 0, weighed(values, weights), weights);
    assertThat(without.oddest(2)).isEqualTo(2);
    assertThat(without.size(9)).isZero();
  }

  /** No noise at all is taken for 0.1 an axis. */
  @ParameterizedTest
  @CsvSource({"0.4, false", "0.9, true"})
  void oddest_noNoise_neverJudgedTooClosely(double off, boolean odd) {
    double[] values = values(0);
    values[0] += off;
    Deletion deletion = deletion(means(), 0, values, ones());
    assertThat(deletion.oddest(0.1)).isEqualTo(odd ? 0 : -1);
    assertThat(deletion.isOdd(0, 0.1)).isEqualTo(odd);
  }

  /** A patch that alone determines a parameter of its own on each axis is never odd. */
  @Test
  void oddest_patchWithParametersOfItsOwn_notOdd() {
    double[] values = values(0.3);
    values[3 * 5] += 20;
    double[][] slopes = Arrays.copyOf(means(), 6);
    for (int axis = 0; axis < 3; axis++) {
      slopes[3 + axis] = new double[3 * ROWS];
      slopes[3 + axis][15 + axis] = 1;
    }
    Deletion deletion = deletion(slopes, 0, values, ones());
    assertThat(deletion.oddest(0.1)).isEqualTo(-1);
    assertThat(deletion.size(5)).isCloseTo(0, within(1e-6));
    assertThat(deletion(slopes, 100, values, ones()).oddest(2)).isEqualTo(5);
  }

  /** Two patches have no freedom to tell which is off. */
  @Test
  void oddest_tooFewPatches_none() {
    double[] values = new double[6];
    values[0] = 30;
    double[][] slopes = new double[3][6];
    for (int axis = 0; axis < 3; axis++) {
      slopes[axis][axis] = 1;
      slopes[axis][3 + axis] = 1;
    }
    boolean[] judged = {true, true};
    assertThat(new Deletion(slopes, 0, values, judged, new double[] {1, 1}, QUANTILES).oddest(2))
        .isEqualTo(-1);
  }

  @Test
  void oddest_patchThatIsNotJudged_passedOver() {
    double[] values = values(0.2);
    values[9] += 8;
    boolean[] judged = new boolean[ROWS];
    Arrays.fill(judged, true);
    judged[3] = false;
    assertThat(new Deletion(means(), 0, values, judged, ones(), QUANTILES).oddest(2)).isEqualTo(-1);
  }

  private static Deletion deletion(
      double[][] slopes, double pull, double[] values, double[] weights) {
    boolean[] judged = new boolean[ROWS];
    Arrays.fill(judged, true);
    return new Deletion(slopes, pull, values, judged, weights, QUANTILES);
  }

  /** 1 on each axis, and noise of this size and changing sign. */
  private static double[] values(double noise) {
    double[] values = new double[3 * ROWS];
    Arrays.setAll(values, i -> 1 + noise * (i * 7 % 4 < 2 ? 1 : -1));
    return values;
  }

  private static double[] ones() {
    double[] ones = new double[ROWS];
    Arrays.fill(ones, 1);
    return ones;
  }

  private static double[][] means() {
    return means(ones());
  }

  private static double[][] means(double[] weights) {
    double[][] slopes = new double[3][3 * ROWS];
    for (int i = 0; i < 3 * ROWS; i++) {
      slopes[i % 3][i] = weights[i / 3];
    }
    return slopes;
  }

  private static double[] weighed(double[] values, double[] weights) {
    double[] weighed = values.clone();
    for (int i = 0; i < weighed.length; i++) {
      weighed[i] *= weights[i / 3];
    }
    return weighed;
  }
}
