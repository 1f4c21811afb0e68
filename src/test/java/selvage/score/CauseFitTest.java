package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.ink.InkMixture;
import selvage.score.Cause.Kind;

/** Planted causes are found again, with the figures that theory gives for their certainty. */
class CauseFitTest {
  private static final PrintModel MODEL = StraightPress.model();
  private static final double[] TINTS = MODEL.tints(StraightPress.mixtures());
  private static final int ROWS = StraightPress.mixtures().size();
  private static final Quantiles QUANTILES = new Quantiles();
  private static final int CAST = 13;

  @ParameterizedTest
  @CsvSource({
    "TONE, Cyan, 0.04, 0, 0",
    "TONE, Night Pine, -0.06, 0, 0",
    "DENSITY, Black, 0.08, 0, 0",
    "DENSITY, Dune Red, -0.05, 0, 0",
    "PAPER, '', -1, 0.5, 2.5",
    "CAST, '', 1, -2, 0.5",
    "HUE, '', 0.05, 0, 0",
    "RECIPE, Dune Red, 2, -3, 1",
    "RECIPE, Night Pine, -2, 3, 1",
  })
  void fit_oneCausePlanted_foundAlone(Kind kind, String ink, double l, double a, double b) {
    double[] values = {l, a, b};
    double[] planted = StraightPress.at(MODEL, kind, ink, Arrays.copyOf(values, kind.parameters()));
    CauseFitResult found = fit(StraightPress.errors(MODEL, planted, TINTS)).fit();
    assertThat(found.chosen()).containsExactly(MODEL.causes().indexOf(new Cause(kind, ink)));
    for (int i = 0; i < planted.length; i++) {
      assertThat(found.parameters()[i]).isCloseTo(planted[i], within(1e-3 * Math.abs(l) + 1e-9));
    }
    assertThat(found.shares()).hasSize(1);
    assertThat(found.shares()[0]).isBetween(0.999, 1.0);
    assertThat(found.unexplained()).isBetween(0.0, 1e-4);
    assertThat(found.freedom()).isEqualTo(3 * ROWS - kind.parameters());
  }

  @Test
  void fit_noErrors_nothing() {
    CauseFitResult found = fit(new double[3 * ROWS]).fit();
    assertThat(found.chosen()).isEmpty();
    assertThat(found.parameters()).containsOnly(0);
    assertThat(found.unexplained()).isZero();
    assertThat(found.freedom()).isEqualTo(3 * ROWS);
  }

  /** Of two causes in patches of their own each has its part of the sum of squares. */
  @Test
  void fit_twoCausesApart_sharesOfTheSumOfSquares() {
    double[] cyan =
        StraightPress.errors(MODEL, StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.05), tintsAlone());
    double[] pine =
        StraightPress.errors(
            MODEL, StraightPress.at(MODEL, Kind.TONE, "Night Pine", -0.03), tintsAlone());
    double[] both = new double[cyan.length];
    Arrays.setAll(both, i -> cyan[i] + pine[i]);
    CauseFitResult found =
        new CauseFit(MODEL, tintsAlone(), both, ones(both.length / 3), QUANTILES).fit();
    assertThat(found.chosen()).containsExactly(0, 5);
    double sum = squares(cyan) + squares(pine);
    assertThat(found.shares())
        .containsExactly(new double[] {squares(cyan) / sum, squares(pine) / sum}, within(3e-3));
  }

  /**
   * A cast under noise is a mean: its standard uncertainty is that of the noise over the root of
   * the patches; what is left is the noise about the mean.
   */
  @Test
  void fit_castUnderNoise_uncertaintyOfAMean() {
    double[] errors = new double[3 * ROWS];
    double[] noise = {0.2, -0.2, -0.2, 0.2, -0.2, 0.2};
    Arrays.setAll(errors, i -> (i % 3 == 0 ? 3 : i % 3 == 1 ? -2 : 1) + noise[i / 3 % 6]);
    CauseFitResult found = fit(errors).fit();
    assertThat(found.chosen()).containsExactly(CAST);
    double[] mean = new double[3];
    for (int i = 0; i < errors.length; i++) {
      mean[i % 3] += errors[i] / ROWS;
    }
    double rest = 0;
    for (int i = 0; i < errors.length; i++) {
      rest += Math.pow(errors[i] - mean[i % 3], 2);
    }
    int freedom = 3 * ROWS - 3;
    double deviation = Math.sqrt(rest / freedom / ROWS);
    int at = MODEL.offset(CAST);
    for (int axis = 0; axis < 3; axis++) {
      assertThat(found.parameters()[at + axis]).isCloseTo(mean[axis], within(1e-4));
      assertThat(found.deviations()[at + axis]).isCloseTo(deviation, within(1e-3 * deviation));
    }
    assertThat(found.deviations()[0]).isZero();
    assertThat(found.unexplained()).isCloseTo(rest / squares(errors), within(1e-6));
    assertThat(found.freedom()).isEqualTo(freedom);
  }

  /** A weight of 0 leaves a patch out; the others are as if it had not been there. */
  @Test
  void fit_patchOfNoWeight_leftOut() {
    double[] planted = StraightPress.at(MODEL, Kind.CAST, "", 2, 0, -1);
    double[] errors = StraightPress.errors(MODEL, planted, TINTS);
    errors[30] += 40;
    double[] weights = ones(ROWS);
    weights[10] = 0;
    CauseFitResult found = new CauseFit(MODEL, TINTS, errors, weights, QUANTILES).fit();
    assertThat(found.chosen()).containsExactly(CAST);
    assertThat(found.parameters()[MODEL.offset(CAST)]).isCloseTo(2, within(1e-4));
    assertThat(found.freedom()).isEqualTo(3 * (ROWS - 1) - 3);
    assertThat(found.unexplained()).isBetween(0.0, 1e-6);
  }

  /** Twelve scales of 2 are the most that a cast is ever fitted with. */
  @Test
  void fitted_errorsBeyondAnyPress_heldAtTwelveScales() {
    double[] errors = new double[3 * ROWS];
    Arrays.setAll(errors, i -> i % 3 == 0 ? -60 : i % 3 == 1 ? 60 : 0);
    double[] at = fit(errors).fitted(List.of(CAST));
    assertThat(at[MODEL.offset(CAST)]).isCloseTo(-24, within(1e-9));
    assertThat(at[MODEL.offset(CAST) + 1]).isCloseTo(24, within(1e-9));
    assertThat(at[MODEL.offset(CAST) + 2]).isCloseTo(0, within(1e-9));
  }

  @Test
  void fitted_noCause_nothing() {
    double[] errors = new double[3 * ROWS];
    Arrays.fill(errors, 2);
    assertThat(fit(errors).fitted(List.of())).hasSize(MODEL.parameters()).containsOnly(0);
  }

  /**
   * Tone shows in tints from above 2 to below 98 %, density and recipe in tints above 40 %, and
   * only in patches that count.
   */
  @ParameterizedTest
  @CsvSource({
    "TONE, 2, 1, false",
    "TONE, 3, 1, true",
    "TONE, 97, 1, true",
    "TONE, 98, 1, false",
    "TONE, 50, 0, false",
    "DENSITY, 40, 1, false",
    "DENSITY, 41, 1, true",
    "DENSITY, 100, 1, true",
    "DENSITY, 100, 0, false",
    "RECIPE, 40, 1, false",
    "RECIPE, 41, 1, true",
  })
  void fitted_tint_showsACauseOrDoesNot(Kind kind, double tint, double weight, boolean shows) {
    List<InkMixture> mixtures =
        List.of(
            InkMixture.PAPER,
            StraightPress.one("Dune Red", tint),
            StraightPress.one("Cyan", 50),
            StraightPress.one("Cyan", 100));
    double[] tints = MODEL.tints(mixtures);
    double[] planted =
        StraightPress.at(
            MODEL,
            kind,
            "Dune Red",
            Arrays.copyOf(new double[] {kind == Kind.RECIPE ? 3 : 0.05, 1, 1}, kind.parameters()));
    double[] weights = {1, weight, 1, 1};
    CauseFit fit =
        new CauseFit(MODEL, tints, StraightPress.errors(MODEL, planted, tints), weights, QUANTILES);
    int cause = MODEL.causes().indexOf(new Cause(kind, "Dune Red"));
    double found = fit.fitted(List.of(cause))[MODEL.offset(cause)];
    assertThat(found != 0).isEqualTo(shows);
  }

  /**
   * Where nothing is fitted, a patch lies off by what it reads; one whose ink prints nowhere else
   * is never odd, and neither is one that counts no more.
   */
  @Test
  void deletion_noCause_theErrorItselfAndOnlyOfPatchesWithCompany() {
    List<InkMixture> mixtures =
        List.of(
            InkMixture.PAPER,
            StraightPress.one("Cyan", 30),
            StraightPress.one("Cyan", 60),
            StraightPress.one("Magenta", 60),
            InkMixture.PAPER);
    double[] errors = {1, 0, 0, 0, 1, 0, 3, 4, 0, 0, 9, 0, -1, 0, 0};
    double[] weights = ones(5);
    CauseFit fit = new CauseFit(MODEL, MODEL.tints(mixtures), errors, weights, QUANTILES);
    CauseFitResult none =
        new CauseFitResult(
            List.of(),
            new double[MODEL.parameters()],
            new double[MODEL.parameters()],
            new double[0],
            List.of(),
            1,
            15);
    assertThat(fit.deletion(none).oddest(2)).isEqualTo(2);
    assertThat(fit.deletion(none).size(2)).isCloseTo(5 / 1.01, within(1e-9));
    assertThat(fit.deletion(none).size(3)).isCloseTo(9 / 1.01, within(1e-9));
    assertThat(fit.deletion(none).oddest(5)).isEqualTo(-1);
    weights[1] = 0;
    assertThat(fit.deletion(none).oddest(2)).isEqualTo(-1);
    assertThat(fit.deletion(none).size(1)).isZero();
  }

  /** A cause that is far from straight explains all of what it made. */
  @ParameterizedTest
  @CsvSource({"DENSITY, Yellow, 0.3", "DENSITY, Black, 0.35", "TONE, Cyan, -0.2"})
  void fit_oneCauseFarFromStraight_explainsAll(Kind kind, String ink, double value) {
    double[] planted = StraightPress.at(MODEL, kind, ink, value);
    CauseFitResult found = fit(StraightPress.errors(MODEL, planted, TINTS)).fit();
    assertThat(found.chosen()).containsExactly(MODEL.causes().indexOf(new Cause(kind, ink)));
    assertThat(found.shares()[0]).isBetween(0.999, 1.0);
    assertThat(found.rivals()).containsExactly(List.of());
  }

  /** Two inks that print together alone can't be told apart, and a weak one is a rival too. */
  @ParameterizedTest
  @CsvSource({"60, 60", "60, 30"})
  void fit_twoInksAlwaysTogether_rivals(double red, double pine) {
    List<InkMixture> mixtures = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      mixtures.add(
          i % 2 == 0
              ? InkMixture.PAPER
              : InkMixture.ofPercents(Map.of("Dune Red", red, "Night Pine", pine)));
    }
    double[] tints = MODEL.tints(mixtures);
    double[] errors = new double[3 * mixtures.size()];
    for (int row = 1; row < mixtures.size(); row += 2) {
      errors[3 * row] = 2;
      errors[3 * row + 1] = -3;
      errors[3 * row + 2] = 2.5;
    }
    CauseFitResult found =
        new CauseFit(MODEL, tints, errors, ones(mixtures.size()), QUANTILES).fit();
    Cause recipe = new Cause(Kind.RECIPE, "Dune Red");
    Cause other = new Cause(Kind.RECIPE, "Night Pine");
    assertThat(found.chosen()).hasSize(1);
    Cause first = MODEL.causes().get(found.chosen().get(0));
    assertThat(List.of(recipe, other)).contains(first);
    assertThat(found.rivals().get(0))
        .contains(MODEL.causes().indexOf(first.equals(recipe) ? other : recipe))
        .doesNotContainAnyElementsOf(found.chosen());
  }

  /**
   * The function that is fitted, by hand for a cast and a tone: in scales of 2 and of 0.05, a patch
   * of weight 3, and a pull on each parameter.
   */
  @Test
  void model_castAndTone_byHand() {
    double[] tints = MODEL.tints(List.of(InkMixture.PAPER, StraightPress.one("Cyan", 50)));
    int cast = MODEL.offset(CAST);
    CauseFit.Model model =
        new CauseFit(MODEL, tints, new double[6], new double[] {1, 3}, QUANTILES)
        .new Model(new int[] {0, cast + 1}, 0.5);
    Pair<RealVector, RealMatrix> both = model.value(new ArrayRealVector(new double[] {2, -1.5}));
    assertThat(both.getFirst().toArray())
        .containsExactly(
            new double[] {0, -3, 0, -12, 3 * (-3.5 - 3), -13.5, 1, -0.75}, within(0.01));
    RealMatrix slopes = both.getSecond();
    assertThat(slopes.getColumn(0))
        .containsExactly(new double[] {0, 0, 0, -6, -5.25, -6.75, 0.5, 0}, within(0.1));
    assertThat(slopes.getColumn(1))
        .containsExactly(new double[] {0, 2, 0, 0, 6, 0, 0, 0.5}, within(1e-9));
  }

  private static CauseFit fit(double[] errors) {
    return new CauseFit(MODEL, TINTS, errors, ones(ROWS), QUANTILES);
  }

  /** Paper and every ink alone, no overprints. */
  private static double[] tintsAlone() {
    return Arrays.copyOf(TINTS, 25 * MODEL.inks().size());
  }

  private static double[] ones(int count) {
    double[] ones = new double[count];
    Arrays.fill(ones, 1);
    return ones;
  }

  private static double squares(double[] values) {
    return Arrays.stream(values).map(value -> value * value).sum();
  }
}
