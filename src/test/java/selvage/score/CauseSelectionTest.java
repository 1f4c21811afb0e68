package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Choices among columns of known worth. Most columns here are unit vectors of their own, so that
 * what each accounts for is the square of the target's number in its place.
 */
class CauseSelectionTest {
  /** Noise of variance 1 in 28 places, after the places of the columns. */
  private static final int NOISE = 28;

  /**
   * One parameter is needed where its square over the variance passes F at 0.2 %: the square of
   * Student's t at 0.1 % on one side, 3.408 with 28 degrees of freedom as tables print it.
   */
  @ParameterizedTest
  @CsvSource({"3.30, false", "3.38, false", "3.44, true", "3.5, true", "-3.5, true", "0, false"})
  void choose_oneCause_decidedByTheTabledT(double effect, boolean needed) {
    double[] target = target(NOISE, effect);
    assertThat(choose(units(target.length, 1), target, new int[][] {{0}}).contains(0))
        .isEqualTo(needed);
  }

  /**
   * F with 3 and 28 degrees of freedom lies between 5.27 at 0.5 % and 7.19 at 0.1 %, as tables
   * print them: three numbers of 2.2 each have 4.84, of 2.8 each 7.84.
   */
  @ParameterizedTest
  @CsvSource({"2.2, false", "2.8, true"})
  void choose_causeOfThreeParameters_judgedAsOne(double effect, boolean needed) {
    double[] target = target(NOISE, effect, effect, effect);
    List<Integer> chosen = choose(units(target.length, 3), target, new int[][] {{0, 1, 2}});
    assertThat(chosen).isEqualTo(needed ? List.of(0) : List.of());
  }

  @Test
  void choose_someOfMany_thoseWithAnEffectRising() {
    double[] target = target(NOISE, 0.3, 9, -0.5, 0.1, 0, 8, 8, -20);
    int[][] groups = {{0}, {1}, {2}, {3, 4}, {5, 6}, {7}};
    assertThat(choose(units(target.length, 8), target, groups)).containsExactly(1, 4, 5);
  }

  /** As above with so few observations that the choice begins with none. */
  @Test
  void choose_fewObservations_thoseWithAnEffectRising() {
    double[] target = target(4, 0.3, 40, -0.5, 0.1, -0.2, 60);
    int[][] groups = {{0}, {1}, {2}, {3}, {4}, {5}};
    assertThat(choose(units(target.length, 6), target, groups)).containsExactly(1, 5);
  }

  @Test
  void choose_emptyGroupAndSilentColumn_neverChosen() {
    double[] target = target(NOISE, 9, 9, 9);
    double[][] columns = units(target.length, 3);
    columns[1] = new double[target.length];
    assertThat(choose(columns, target, new int[][] {{}, {0, 1}, {2}})).containsExactly(2);
  }

  @Test
  void choose_nothingToExplain_none() {
    double[] target = new double[30];
    assertThat(choose(units(30, 2), target, new int[][] {{0}, {1}})).isEmpty();
  }

  /** Errors of a hundredth are never evidence: readings are not that good. */
  @ParameterizedTest
  @CsvSource({"0.03, false", "0.6, true"})
  void choose_noNoiseAtAll_smallEffectsPassedOver(double effect, boolean needed) {
    double[] target = new double[30];
    target[0] = effect;
    assertThat(choose(units(30, 1), target, new int[][] {{0}}).contains(0)).isEqualTo(needed);
  }

  /**
   * The target is ten of one column and eight of a second, with 27 of noise left. A third is nearer
   * to it than either, so that it comes first where the choice begins with none; beside the second
   * it leaves 5.9 more than the first does, too little for all three, enough for an exchange.
   * Seventeen idle columns make the observations few.
   */
  @ParameterizedTest
  @ValueSource(ints = {0, 17})
  void choose_bestFirstIsNotOfTheBestPair_exchanged(int idle) {
    double[] target = target(27, 10, 8, 0);
    double[][] columns = new double[3 + idle][target.length];
    int[][] groups = new int[columns.length][];
    for (int i = 0; i < columns.length; i++) {
      columns[i][i] = 1;
      groups[i] = new int[] {i};
    }
    columns[2] = columns[0].clone();
    columns[2][1] = 0.35;
    columns[2][2] = 0.25;
    assertThat(choose(columns, target, groups)).containsExactly(0, 1);
  }

  /** Two columns that nearly say the same: the one that is the target itself. */
  @Test
  void choose_twoAlike_theTrueOne() {
    double[] target = target(NOISE, 20, 0);
    double[][] columns = units(target.length, 2);
    columns[0][1] = 0.5;
    assertThat(choose(columns, target, new int[][] {{0}, {1}})).contains(0);
    columns[0][1] = 0;
    columns[1][0] = 1;
    columns[1][1] = 0.3;
    assertThat(choose(columns, target, new int[][] {{1}, {0}})).containsExactly(1);
  }

  /**
   * Twenty observations, three parameters and the noise: 20 ln(40/20) + 2 · 4 + 2 · 4 · 5 / 15.
   * With no more observations than parameters and two the correction has no end.
   */
  @Test
  void criterion_smallSample_byHand() {
    CauseSelection twenty = selection(20);
    assertThat(twenty.criterion(40, 3)).isCloseTo(24.5296, within(1e-4));
    assertThat(twenty.criterion(20, 0)).isCloseTo(2 + 4 / 18.0, within(1e-9));
    assertThat(selection(6).criterion(6, 3)).isCloseTo(8 + 40, within(1e-9));
    assertThat(selection(5).criterion(5, 3)).isInfinite();
    assertThat(selection(4).criterion(4, 3)).isInfinite();
  }

  private static CauseSelection selection(int observations) {
    return new CauseSelection(
        new NormalEquations(new double[0][], new double[observations]),
        new int[0][],
        observations,
        new Quantiles());
  }

  private static List<Integer> choose(double[][] columns, double[] target, int[][] groups) {
    return new CauseSelection(
            new NormalEquations(columns, target), groups, target.length, new Quantiles())
        .choose();
  }

  /** The effects, then noise of alternating sign and size 1. */
  private static double[] target(int noise, double... effects) {
    double[] target = new double[effects.length + noise];
    System.arraycopy(effects, 0, target, 0, effects.length);
    for (int i = 0; i < noise; i++) {
      target[effects.length + i] = i % 2 == 0 ? 1 : -1;
    }
    return target;
  }

  private static double[][] units(int length, int count) {
    double[][] columns = new double[count][length];
    for (int i = 0; i < count; i++) {
      columns[i][i] = 1;
    }
    return columns;
  }
}
