package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Columns of known worth: the first cause accounts for a 4 in the first place, 4 of squares stay.
 */
class CauseEvidenceTest {
  private static final double[] WITHOUT = {4, 0, 0, 1, -1, 1, -1};

  @Test
  void share_oneCause_whatComesBackOfTheSum() {
    assertThat(evidence(0.75, List.of(0), 20, 4).share(0, WITHOUT)).isCloseTo(0.8, within(1e-9));
    assertThat(evidence(0.75, List.of(0), 10, 4).share(0, WITHOUT)).isEqualTo(1);
    assertThat(evidence(0.75, List.of(0), 0, 4).share(0, WITHOUT)).isZero();
  }

  /** With another chosen that points the same way in part, less comes back. */
  @Test
  void share_anotherThatSaysMuchTheSame_onlyTheRest() {
    double back = 16 - 16 / (1 + 0.75 * 0.75);
    assertThat(evidence(0.75, List.of(0, 1), 20, 4).share(0, WITHOUT))
        .isCloseTo(back / 20, within(1e-9));
  }

  /**
   * The rival (1, x) leaves 16 x² / (1 + x²) more. With a variance of 1 the bound is 6, between x
   * of 0.75 (5.76) and of 0.8 (6.24); with twice the freedom the variance is half of that, and 3
   * lies between 0.45 (2.69) and 0.5 (3.2).
   */
  @ParameterizedTest
  @CsvSource({"0.75, 4, true", "0.8, 4, false", "0.45, 8, true", "0.5, 8, false"})
  void rivals_anotherDirection_byLikelihood(double x, int freedom, boolean rival) {
    assertThat(evidence(x, List.of(0), 20, freedom).rivals(0, WITHOUT).contains(1))
        .isEqualTo(rival);
  }

  /** None that is chosen already, has more numbers or says nothing. */
  @Test
  void rivals_chosenOrLarger_none() {
    assertThat(evidence(0.1, List.of(0, 1), 20, 4).rivals(0, WITHOUT)).isEmpty();
    assertThat(evidence(0.1, List.of(0), 20, 4).rivals(0, WITHOUT)).containsExactly(1);
    assertThat(evidence(5, List.of(2), 20, 4).rivals(2, WITHOUT)).contains(0);
  }

  /** Causes: a number each at (1, 0) and (1, x), one of two numbers, one of none. */
  private static CauseEvidence evidence(double x, List<Integer> chosen, double total, int freedom) {
    double[][] columns = {
      {1, 0, 0, 0, 0, 0, 0}, {1, x, 0, 0, 0, 0, 0}, {1, 0, 0, 0, 0, 0, 0}, {0, 1, 0, 0, 0, 0, 0}
    };
    int[][] groups = {{0}, {1}, {2, 3}, {}};
    return new CauseEvidence(
        new NormalEquations(columns, WITHOUT), groups, chosen, 4, total, freedom);
  }
}
