package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.score.Cause.Kind;

class RecipeFitTest {
  private static final PrintModel MODEL = StraightPress.model();
  private static final double[] SOUND = new double[MODEL.parameters()];
  private static final InkMixture RED = StraightPress.one("Dune Red", 100);

  @Test
  void of_noCause_theMixtureItself() {
    for (InkMixture mixture :
        List.of(
            InkMixture.cmyk(40, 30, 30, 0),
            RED,
            InkMixture.ofPercents(Map.of("Night Pine", 40.0, "Cyan", 20.0)))) {
      InkMixture found = fit(SOUND, 310).of(mixture, mixture, goal(mixture), 0);
      assertThat(found.units().keySet()).isEqualTo(mixture.units().keySet());
      found
          .units()
          .keySet()
          .forEach(
              ink -> assertThat(found.percent(ink)).isCloseTo(mixture.percent(ink), within(0.3)));
    }
  }

  /** Magenta prints 10 % heavy at 50 %: 40.1 % prints as 50 %, from 0.4x² − 1.4x + 0.5 = 0. */
  @Test
  void of_toneHeavy_theTintThatPrintsAsAsked() {
    double[] cause = StraightPress.at(MODEL, Kind.TONE, "Magenta", 0.1);
    InkMixture asked = InkMixture.cmyk(0, 50, 0, 0);
    InkMixture found = fit(cause, 310).of(asked, asked, goal(asked), 0);
    double x = (1.4 - Math.sqrt(1.96 - 0.8)) / 0.8;
    assertThat(found.percent(Colorant.MAGENTA)).isCloseTo(100 * x, within(0.3));
  }

  /** A spot solid that lacks yellow gets some, and keeps its own ink; the other spot stays out. */
  @Test
  void of_spotLacksYellow_yellowAdded() {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", 0, 0, -12);
    InkMixture found = fit(cause, 310).of(RED, RED, goal(RED), 1.25);
    assertThat(found.percent(Colorant.YELLOW)).isBetween(5.0, 40.0);
    assertThat(found.percent(Colorant.named("Dune Red"))).isBetween(85.0, 100.0);
    assertThat(found.percent(Colorant.named("Night Pine"))).isZero();
    assertThat(left(cause, RED, found)).isLessThan(0.3 * left(cause, RED, RED));
    found.units().keySet().forEach(ink -> assertThat(found.percent(ink)).isGreaterThan(0.19));
  }

  /** Never more ink than the limit, or than was asked for where that is more. */
  @Test
  void of_inkLimit_kept() {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", 20, -20, -12);
    assertThat(fit(cause, 310).of(RED, RED, goal(RED), 0).totalPercent()).isGreaterThan(105);
    assertThat(fit(cause, 100).of(RED, RED, goal(RED), 0).totalPercent())
        .isLessThanOrEqualTo(100.001);
    InkMixture asked = InkMixture.ofPercents(Map.of("Dune Red", 100.0, "Black", 50.0));
    assertThat(fit(cause, 100).of(asked, asked, goal(asked), 0).totalPercent())
        .isBetween(101.0, 150.001);
  }

  /** Process inks within reach mend a spot ink that is off by more than ΔE00 10. */
  @ParameterizedTest
  @CsvSource({
    "Dune Red, 10, -30, -20, 0.5",
    "Dune Red, -10, 10, 30, 1",
    "Night Pine, 15, 30, 5, 0.5",
    "Night Pine, 5, 40, 40, 2",
    "Night Pine, -10, -10, -20, 0.5"
  })
  void of_spotFarOff_comesNear(String ink, double l, double a, double b, double within) {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, ink, l, a, b);
    InkMixture asked = StraightPress.one(ink, 100);
    InkMixture found = fit(cause, 310).of(asked, asked, goal(asked), 0);
    assertThat(left(cause, asked, asked)).isGreaterThan(10);
    assertThat(left(cause, asked, found)).isLessThan(within);
  }

  /** The goal less what is printed, in ΔE00, then 0.7 for each part of 1 off the curves' tints. */
  @Test
  void value_straightPress_byHand() {
    double[] goal = MODEL.print(SOUND, MODEL.tints(List.of(InkMixture.cmyk(50, 20, 0, 0))));
    double[] start = MODEL.tints(List.of(InkMixture.cmyk(40, 20, 0, 10)));
    RecipeFit.Model model = fit(SOUND, 310).new Model(goal, start, List.of(0, 1, 3), 310);
    double[] found = model.computeValue(new double[] {0.6, 0.2, 0.1}).toArray();
    double[] difference = {0.1 * -40 + 0.1 * -77, 0.1 * -35, 0.1 * -45 + 0.1 * 2};
    double[] scaled = new double[3];
    PerceptualScale.scale(new double[] {66, -3.5, -24.5}, difference, 0, 1, scaled);
    assertThat(found)
        .containsExactly(
            new double[] {scaled[0], scaled[1], scaled[2], 0.7 * 0.2, 0, 0}, within(0.003));
    double[] clipped = model.computeValue(new double[] {0.5, -0.3, -0.1}).toArray();
    double[] without = {0.2 * 45, 0.2 * -70, 0};
    PerceptualScale.scale(new double[] {66, -3.5, -24.5}, without, 0, 1, scaled);
    assertThat(clipped)
        .containsExactly(
            new double[] {scaled[0], scaled[1], scaled[2], 0.07, -0.35, -0.14}, within(0.003));
  }

  @Test
  void jacobian_everyTint_theDifferenceQuotientOfValues() {
    double[] cause = StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.05);
    double[] goal = MODEL.print(SOUND, MODEL.tints(List.of(InkMixture.cmyk(50, 20, 0, 0))));
    double[] start = MODEL.tints(List.of(InkMixture.cmyk(40, 20, 0, 10)));
    RecipeFit.Model model = fit(cause, 310).new Model(goal, start, List.of(0, 1, 4), 310);
    double[] at = {0.45, 0.3, 1};
    Pair<RealVector, RealMatrix> both = model.value(new ArrayRealVector(at));
    assertThat(both.getFirst().toArray()).isEqualTo(model.computeValue(at).toArray());
    for (int k = 0; k < at.length; k++) {
      double[] other = at.clone();
      other[k] -= 0.01;
      double[] down = model.computeValue(other).toArray();
      other[k] = Math.min(1, at[k] + 0.01);
      double[] up = model.computeValue(other).toArray();
      for (int i = 0; i < up.length; i++) {
        double quotient = (up[i] - down[i]) / (at[k] == 1 ? 0.01 : 0.02);
        assertThat(both.getSecond().getEntry(i, k))
            .as("row %d, tint %d", i, k)
            .isCloseTo(quotient, within(0.5 + 0.03 * Math.abs(quotient)));
      }
    }
  }

  /** The nearest mixture that is near enough to the goal, though one farther off comes nearer. */
  @Test
  void of_nearEnough_staysWithItsOwnInk() {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Night Pine", 5, 40, 40);
    InkMixture asked = StraightPress.one("Night Pine", 100);
    double near = left(cause, asked, fit(cause, 310).of(asked, asked, goal(asked), 100));
    double far = left(cause, asked, fit(cause, 310).of(asked, asked, goal(asked), 0));
    assertThat(near).isLessThan(left(cause, asked, asked));
    assertThat(near).isGreaterThan(far + 0.7);
    assertThat(left(cause, asked, fit(cause, 310).of(asked, asked, goal(asked), near / 2)))
        .isBetween(far + 0.7, near / 2);
    assertThat(left(cause, asked, fit(cause, 310).of(asked, asked, goal(asked), 2 * near)))
        .isEqualTo(near);
  }

  /** The goal may be another than the mixture's own colour: that of a patch that reads off. */
  @Test
  void of_goalShifted_theTintOfTheShiftedColour() {
    InkMixture asked = InkMixture.cmyk(50, 0, 0, 0);
    InkMixture found = fit(SOUND, 310).of(asked, asked, goal(InkMixture.cmyk(40, 0, 0, 0)), 0);
    assertThat(found.percent(Colorant.CYAN)).isCloseTo(40, within(0.3));
  }

  /** An ink of which nothing is known is charged for as 5, not 0.7, and comes in more sparingly. */
  @Test
  void of_inkNotSeen_usedSparingly() {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", 0, 0, -12);
    boolean[] seen = {true, true, false, true, true, true};
    RecipeFit careful = new RecipeFit(MODEL, cause, seen, 310);
    double yellow = careful.of(RED, RED, goal(RED), 100).percent(Colorant.YELLOW);
    assertThat(yellow)
        .isBetween(0.2, fit(cause, 310).of(RED, RED, goal(RED), 100).percent(Colorant.YELLOW) - 1);
    double[] value =
        careful.new Model(goal(RED), MODEL.tints(List.of(RED)), List.of(1, 2), 310)
            .computeValue(new double[] {0.1, 0.1})
            .toArray();
    assertThat(value[3]).isCloseTo(0.07, within(1e-9));
    assertThat(value[4]).isCloseTo(0.5, within(1e-9));
  }

  /** Where tints sum to more than the limit, the fit knows that all are sent lower. */
  @Test
  void value_overTheInkLimit_sentLowerAlike() {
    double[] goal = goal(InkMixture.cmyk(50, 50, 0, 0));
    double[] start = MODEL.tints(List.of(InkMixture.cmyk(80, 80, 0, 0)));
    double[] found =
        fit(SOUND, 100).new Model(goal, start, List.of(0, 1), 100)
            .computeValue(new double[] {0.8, 0.8})
            .toArray();
    assertThat(found).containsExactly(new double[] {0, 0, 0, 0, 0}, within(0.01));
  }

  private static RecipeFit fit(double[] cause, double inkLimitPercent) {
    boolean[] seen = {true, true, true, true, true, true};
    return new RecipeFit(MODEL, cause, seen, inkLimitPercent);
  }

  private static double[] goal(InkMixture mixture) {
    return MODEL.print(SOUND, MODEL.tints(List.of(mixture)));
  }

  private static double left(double[] cause, InkMixture asked, InkMixture sent) {
    double[] goal = MODEL.print(SOUND, MODEL.tints(List.of(asked)));
    double[] printed = MODEL.print(cause, MODEL.tints(List.of(sent)));
    return ColorDifference.de00(
        new Lab(goal[0], goal[1], goal[2]),
        new Lab(Math.max(0, printed[0]), printed[1], printed[2]));
  }
}
