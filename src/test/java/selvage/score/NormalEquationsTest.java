package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Straight lines and parabolas through four points, by hand. */
class NormalEquationsTest {
  private static final double[] ONE = {1, 1, 1, 1};
  private static final double[] X = {0, 1, 2, 3};
  private static final double[] SQUARE = {0, 1, 4, 9};

  /** The line through (0, 1), (1, 3), (2, 4), (3, 4) is 1.5 + x; it leaves four times 0.5². */
  @Test
  void rest_line_residualsByHand() {
    NormalEquations line = new NormalEquations(new double[][] {ONE, X}, new double[] {1, 3, 4, 4});
    assertThat(line.rest(new int[0])).isCloseTo(42, within(1e-9));
    assertThat(line.rest(new int[] {0})).isCloseTo(42 - 4 * 3 * 3, within(1e-9));
    assertThat(line.rest(new int[] {1})).isCloseTo(42 - 23 * 23 / 14.0, within(1e-9));
    assertThat(line.rest(new int[] {0, 1})).isCloseTo(1, within(1e-9));
    assertThat(line.rest(new int[] {1, 0})).isCloseTo(1, within(1e-9));
  }

  /** What a parabola leaves of four points one apart: the third difference squared over 20. */
  @Test
  void rest_parabola_thirdDifference() {
    double[][] columns = {ONE, X, SQUARE};
    int[] all = {0, 1, 2};
    NormalEquations bent = new NormalEquations(columns, new double[] {1, 3, 4, 9});
    assertThat(bent.rest(all)).isCloseTo(5 * 5 / 20.0, within(1e-9));
    assertThat(bent.rest(new int[] {2, 0, 1})).isCloseTo(5 * 5 / 20.0, within(1e-9));
    NormalEquations exact = new NormalEquations(columns, new double[] {1, 3, 4, 4});
    assertThat(exact.rest(all)).isBetween(0.0, 1e-9);
  }

  /**
   * The Gram matrix of 1, x is 4 6, 6 14 with the determinant 20; with x² as well 4 6 14, 6 14 36,
   * 14 36 98 with the determinant 80 and the diagonal's cofactors 76, 196, 20.
   */
  @Test
  void inverseDiagonal_cofactorsByHand() {
    NormalEquations equations =
        new NormalEquations(new double[][] {ONE, X, SQUARE}, new double[] {1, 3, 4, 4});
    assertClose(equations.inverseDiagonal(new int[] {0, 1}), 14 / 20.0, 4 / 20.0);
    assertClose(equations.inverseDiagonal(new int[] {1}), 1 / 14.0);
    assertClose(equations.inverseDiagonal(new int[] {0, 1, 2}), 76 / 80.0, 196 / 80.0, 20 / 80.0);
    assertClose(equations.inverseDiagonal(new int[] {2, 1, 0}), 20 / 80.0, 196 / 80.0, 76 / 80.0);
  }

  /** The same columns for another target are those equations made anew. */
  @Test
  void with_anotherTarget_asMadeAnew() {
    double[][] columns = {ONE, X, SQUARE};
    double[] other = {2, -1, 4, 9};
    NormalEquations line = new NormalEquations(columns, new double[] {1, 3, 4, 4});
    NormalEquations anew = new NormalEquations(columns, other);
    for (int[] chosen : new int[][] {{}, {0}, {1, 0}, {0, 1, 2}}) {
      assertThat(line.with(other).rest(chosen)).isCloseTo(anew.rest(chosen), within(1e-12));
      assertThat(line.with(other).inverseDiagonal(chosen)).isEqualTo(anew.inverseDiagonal(chosen));
    }
    assertThat(line.rest(new int[] {0, 1})).isCloseTo(1, within(1e-9));
  }

  @Test
  void rest_columnTwice_asOnce() {
    NormalEquations twice =
        new NormalEquations(new double[][] {X, X}, new double[] {0.5, 1, 2.5, 2});
    double once = twice.rest(new int[] {0});
    assertThat(twice.rest(new int[] {0, 1})).isCloseTo(once, within(1e-6));
    assertThat(twice.inverseDiagonal(new int[] {0, 1})).doesNotContain(Double.NaN);
  }

  @Test
  void speaks_columnOfNothing_no() {
    NormalEquations equations =
        new NormalEquations(new double[][] {new double[4], {0, 1e-3, 0, 0}}, ONE);
    assertThat(equations.speaks(0)).isFalse();
    assertThat(equations.speaks(1)).isTrue();
    assertThat(equations.rest(new int[] {0})).isCloseTo(4, within(1e-9));
  }

  private static void assertClose(double[] found, double... expected) {
    assertThat(found).hasSize(expected.length);
    for (int i = 0; i < expected.length; i++) {
      assertThat(found[i]).as("%d", i).isCloseTo(expected[i], within(1e-6));
    }
  }
}
