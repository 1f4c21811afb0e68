package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.score.Cause.Kind;
import selvage.strip.Strip;

/** Diagnoses of a press of straight lines, whose figures are reckoned by hand. */
class StraightDiagnosisTest {
  private static final Strip STRIP = StraightProof.strip();
  private static final PrintModel MODEL = StraightPress.model();
  private static final Diagnosing DIAGNOSING =
      new Diagnosing(StraightPress.condition(), List.of(STRIP));
  private static final int PATCHES = 30;

  /** 1, −2, 2 on every patch is ΔE*ab 3 on every patch, and nothing else. */
  @Test
  void diagnose_cast_allOfTheError() {
    Diagnosis found = diagnose(cast(1, -2, 2));
    assertThat(found.causes()).hasSize(1);
    assertThat(found.causes().get(0).cause()).isEqualTo(new Cause(Kind.CAST, ""));
    assertThat(found.causes().get(0).values())
        .usingElementComparator((x, y) -> Math.abs(x - y) < 1e-3 ? 0 : 1)
        .containsExactly(1.0, -2.0, 2.0);
    assertThat(found.causes().get(0).share()).isCloseTo(1, within(1e-4));
    assertThat(found.readings()).isEqualTo(PATCHES);
    assertThat(found.errorDe76()).isCloseTo(3, within(1e-9));
    assertThat(found.unexplainedDe76()).isCloseTo(0, within(1e-2));
    assertThat(found.unexplainedShare()).isCloseTo(0, within(1e-4));
    assertThat(found.oddPatches()).isEmpty();
    assertThat(found.words())
        .containsExactly(
            "All colours alike are 1.0 lighter, 2.0 greener and 2.0 yellower; 100 % of the error.");
  }

  @Test
  void diagnose_readingsAreAims_nothing() {
    Diagnosis found = diagnose(new double[3 * PATCHES]);
    assertThat(found.causes()).isEmpty();
    assertThat(found.errorDe76()).isZero();
    assertThat(found.unexplainedShare()).isZero();
  }

  /** Percent for tone and density, degrees for hue. */
  @ParameterizedTest
  @CsvSource({"TONE, Magenta, 0.05, 5", "DENSITY, Cyan, -0.08, -8", "HUE, '', 0.0349066, 2"})
  void diagnose_oneCause_inItsUnit(Kind kind, String ink, double parameter, double value) {
    Diagnosis found =
        diagnose(StraightProof.errors(STRIP, StraightPress.at(MODEL, kind, ink, parameter)));
    assertThat(found.causes()).hasSize(1);
    assertThat(found.causes().get(0).cause()).isEqualTo(new Cause(kind, ink));
    assertThat(found.causes().get(0).values().get(0)).isCloseTo(value, within(0.02));
  }

  /**
   * A mean under noise: its 95 % interval is Student's t times the deviation over the root of the
   * count; the rest is the noise about the mean.
   */
  @Test
  void diagnose_castUnderNoise_intervalOfAMean() {
    double[] errors = cast(3, -2, 1);
    double[] noise = {0.2, -0.2, -0.2, 0.2, -0.2, 0.2};
    for (int i = 0; i < errors.length; i++) {
      errors[i] += noise[i / 3 % 6];
    }
    Diagnosis found = diagnose(errors);
    assertThat(found.causes()).hasSize(1);
    double rest = 0;
    double all = 0;
    for (int axis = 0; axis < 3; axis++) {
      double mean = 0;
      for (int row = 0; row < PATCHES; row++) {
        mean += errors[3 * row + axis] / PATCHES;
      }
      for (int row = 0; row < PATCHES; row++) {
        rest += Math.pow(errors[3 * row + axis] - mean, 2);
        all += Math.pow(errors[3 * row + axis], 2);
      }
    }
    double deviation = Math.sqrt(rest / (3 * PATCHES - 3));
    double t = 1.9876; // 97.5 % of Student's t with 87 degrees of freedom, tabled 1.988
    for (double margin : found.causes().get(0).margins()) {
      assertThat(margin).isCloseTo(t * deviation / Math.sqrt(PATCHES), within(1e-4));
    }
    assertThat(found.errorDe76()).isCloseTo(Math.sqrt(all / PATCHES), within(1e-9));
    assertThat(found.unexplainedDe76()).isCloseTo(Math.sqrt(rest / PATCHES), within(1e-4));
    assertThat(found.unexplainedShare()).isCloseTo(rest / all, within(1e-6));
  }

  /**
   * The greatest share first. Tone and density of one ink against each other would each bring back
   * more than all of the error; their shares are scaled to what is explained.
   */
  @Test
  void diagnose_causesAgainstEachOther_sharesOfWhatIsExplained() {
    double[] parameters = StraightPress.at(MODEL, Kind.TONE, "Black", 0.06);
    parameters[9] = -0.1;
    parameters[1] = 0.02;
    double[] errors = StraightProof.errors(STRIP, parameters);
    for (int i = 0; i < errors.length; i++) {
      errors[i] += i % 2 == 0 ? 0.05 : -0.05;
    }
    Diagnosis found = diagnose(errors);
    assertThat(found.causes())
        .extracting(FoundCause::cause)
        .contains(
            new Cause(Kind.TONE, "Black"),
            new Cause(Kind.DENSITY, "Black"),
            new Cause(Kind.TONE, "Magenta"));
    double sum = found.causes().stream().mapToDouble(FoundCause::share).sum();
    assertThat(sum).isCloseTo(1 - found.unexplainedShare(), within(1e-9));
    assertThat(found.causes()).isSortedAccordingTo((x, y) -> Double.compare(y.share(), x.share()));
    assertThat(found.causes().get(0).cause().ink()).isEqualTo("Black");
  }

  /** Up to a tenth of the patches may be odd: three of thirty, not four. */
  @Test
  void diagnose_someMisread_leftOutUpToATenth() {
    double[] errors = cast(0.5, 0, 0);
    for (int row : new int[] {4, 11, 19}) {
      errors[3 * row + 2] += row % 2 == 0 ? 9 : -9;
    }
    Diagnosis three = diagnose(errors);
    assertThat(three.oddPatches()).containsExactly("J05", "J012", "J020");
    assertThat(three.readings()).isEqualTo(PATCHES - 3);
    assertThat(three.errorDe76()).isCloseTo(0.5, within(1e-9));
    assertThat(three.causes()).hasSize(1);
    assertThat(three.causes().get(0).values().get(0)).isCloseTo(0.5, within(1e-3));
    errors[3 * 25 + 2] -= 9;
    Diagnosis four = diagnose(errors);
    assertThat(four.oddPatches()).isEmpty();
    assertThat(four.readings()).isEqualTo(PATCHES);
  }

  /**
   * One patch of thirty that is misread by more than the cause moves any: it is named, and the
   * cause is found as without it.
   */
  @ParameterizedTest
  @CsvSource({
    "TONE, Cyan, 0.04, 4, 6",
    "TONE, Cyan, 0.04, 9, 40",
    "TONE, Magenta, -0.05, 17, 25",
    "DENSITY, Black, 0.1, 2, 30",
    "DENSITY, Dune Red, -0.08, 24, 15",
    "HUE, '', 0.05, 11, 20"
  })
  void diagnose_onePatchMisread_hidesNoCause(
      Kind kind, String ink, double parameter, int row, double off) {
    double[] errors = StraightProof.errors(STRIP, StraightPress.at(MODEL, kind, ink, parameter));
    for (int i = 0; i < errors.length; i++) {
      errors[i] += i * 5 % 7 < 4 ? 0.1 : -0.1;
    }
    double before = diagnose(errors).causes().get(0).values().get(0);
    errors[3 * row] += 0.6 * off;
    errors[3 * row + 1] -= 0.8 * off;
    Diagnosis found = diagnose(errors);
    assertThat(found.oddPatches()).containsExactly(STRIP.patches().get(row).id());
    assertThat(found.readings()).isEqualTo(PATCHES - 1);
    assertThat(found.causes().get(0).cause()).isEqualTo(new Cause(kind, ink));
    assertThat(found.causes().get(0).values().get(0))
        .isCloseTo(before, within(0.05 * Math.abs(before)));
  }

  /** What is off for a cause of its own is not misread: an ink's recipe, a hue, however far. */
  @ParameterizedTest
  @CsvSource({
    "RECIPE, Dune Red, 6, -14, 9",
    "RECIPE, Night Pine, -8, 10, 12",
    "DENSITY, Night Pine, 0.4, 0, 0",
    "TONE, Dune Red, -0.2, 0, 0",
    "HUE, '', 0.2, 0, 0"
  })
  void diagnose_causeOfAFewPatches_noPatchIsOdd(
      Kind kind, String ink, double l, double a, double b) {
    double[] values = Arrays.copyOf(new double[] {l, a, b}, kind.parameters());
    double[] errors = StraightProof.errors(STRIP, StraightPress.at(MODEL, kind, ink, values));
    for (int i = 0; i < errors.length; i++) {
      errors[i] += i * 5 % 7 < 4 ? 0.1 : -0.1;
    }
    Diagnosis found = diagnose(errors);
    assertThat(found.oddPatches()).isEmpty();
    assertThat(found.causes().get(0).cause()).isEqualTo(new Cause(kind, ink));
  }

  private static double[] cast(double l, double a, double b) {
    double[] errors = new double[3 * PATCHES];
    Arrays.setAll(errors, i -> i % 3 == 0 ? l : i % 3 == 1 ? a : b);
    return errors;
  }

  private static Diagnosis diagnose(double[] errors) {
    return DIAGNOSING.diagnose(StraightProof.read(STRIP, errors));
  }
}
