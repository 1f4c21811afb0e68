package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Searches in a bent valley (10(y − x²), 1 − x), whose bottom is at 1, 1. */
class LeastSquaresSearchTest {
  private static final double[] START = {-1.2, 1};
  private static final double[] ZERO = {0, 0};

  @Test
  void from_stepsEnough_theBottom() {
    double[] found = new LeastSquaresSearch(1e-12, 1e-12, 500, 500).from(START, ZERO, new Valley());
    assertThat(found).containsExactly(new double[] {1, 1}, within(1e-4));
  }

  /** With a target other than nothing: 1 − x = 3 and y = x². */
  @Test
  void from_anotherTarget_whereItIsMet() {
    double[] found =
        new LeastSquaresSearch(1e-12, 1e-12, 500, 500)
            .from(START, new double[] {0, 3}, new Valley());
    assertThat(found).containsExactly(new double[] {-2, 4}, within(1e-4));
  }

  /** Cut short, it gives the lowest point that it saw, which is not its beginning. */
  @ParameterizedTest
  @ValueSource(ints = {3, 5, 8, 12})
  void from_stepsTooFew_theBestSeen(int evaluations) {
    Valley valley = new Valley();
    double[] found =
        new LeastSquaresSearch(1e-12, 1e-12, evaluations, 500).from(START, ZERO, valley);
    assertThat(valley.least).isLessThan(24.2);
    assertThat(Valley.squares(found)).isEqualTo(valley.least);
    double[] shorter =
        new LeastSquaresSearch(1e-12, 1e-12, 500, evaluations / 2).from(START, ZERO, new Valley());
    assertThat(Valley.squares(shorter)).isLessThan(24.2);
  }

  @Test
  void from_noStepAllowed_theBeginning() {
    assertThat(new LeastSquaresSearch(1e-12, 1e-12, 1, 1).from(START, ZERO, new Valley()))
        .containsExactly(START);
  }

  @Test
  void from_heldWithin_neverOutside() {
    double[] found =
        new LeastSquaresSearch(1e-9, 1e-9, 100, 100)
            .from(START, ZERO, new Valley(), point -> point.map(x -> Math.min(0.5, x)));
    assertThat(found[0]).isLessThanOrEqualTo(0.5);
    assertThat(found[1]).isLessThanOrEqualTo(0.5);
  }

  private static final class Valley implements PointModel {
    private double least = Double.POSITIVE_INFINITY;

    static double squares(double[] at) {
      double first = 10 * (at[1] - at[0] * at[0]);
      double second = 1 - at[0];
      return first * first + second * second;
    }

    @Override
    public RealVector computeValue(double[] at) {
      least = Math.min(least, squares(at));
      return new ArrayRealVector(new double[] {10 * (at[1] - at[0] * at[0]), 1 - at[0]});
    }

    @Override
    public RealMatrix computeJacobian(double[] at) {
      return new Array2DRowRealMatrix(new double[][] {{-20 * at[0], 10}, {-1, 0}});
    }
  }
}
