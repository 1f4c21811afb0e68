package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

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
import selvage.color.ColorDifference;
import selvage.color.Correction;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.score.Cause.Kind;

class CurveFitTest {
  private static final PrintModel MODEL = StraightPress.model();
  private static final int INKS = 6;
  private static final int PER_INK = 7;
  private static final int RAMP = 9;

  /** Where tones alone moved, the curve is the reverse: the tint that prints as the one asked. */
  @ParameterizedTest
  @CsvSource({"Magenta, 0.08", "Cyan, -0.1", "Black, 0.05", "Night Pine, -0.06"})
  void curves_toneMoved_theReverse(String ink, double change) {
    double[] cause = StraightPress.at(MODEL, Kind.TONE, ink, change);
    List<List<Correction.Curve>> sets = curves(cause, StraightPress.mixtures(), 5);
    assertThat(sets).hasSize(1);
    assertThat(sets.get(0)).extracting(one -> one.ink().name()).isEqualTo(ProofFixture.INKS);
    for (Correction.Curve curve : sets.get(0)) {
      double own = curve.ink().name().equals(ink) ? change : 0;
      assertThat(curve.points()).hasSize(21);
      for (int i = 0; i <= 20; i++) {
        Correction.Point point = curve.points().get(i);
        double sent = point.correctedPercent() / 100;
        assertThat(point.tintPercent()).isCloseTo(5 * i, within(1e-9));
        assertThat(100 * (sent + 4 * own * sent * (1 - sent)))
            .as("%s at %d", curve.ink().name(), 5 * i)
            .isCloseTo(5 * i, within(0.15));
        double hundredths = 100 * point.correctedPercent();
        assertThat(hundredths).isCloseTo(Math.rint(hundredths), within(1e-6));
        assertThat(point.addedPercent()).containsOnly(0.0);
      }
    }
  }

  @Test
  void curves_onlySomeInksPrinted_curvesOfThoseAlone() {
    List<InkMixture> two =
        List.of(InkMixture.PAPER, StraightPress.one("Cyan", 60), StraightPress.one("Dune Red", 30));
    double[] cause = StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.1);
    assertThat(curves(cause, two, 5).get(0))
        .extracting(Correction.Curve::ink)
        .containsExactly(Colorant.CYAN, Colorant.named("Dune Red"));
  }

  /** A solid that prints too dense is sent lower, and comes nearer to its aim by most of it. */
  @Test
  void curves_solidTooDense_sentLower() {
    double[] cause = StraightPress.at(MODEL, Kind.DENSITY, "Magenta", 0.15);
    Correction correction = correction(curves(cause, StraightPress.mixtures(), 5).get(0));
    InkMixture solid = StraightPress.one("Magenta", 100);
    assertThat(correction.byCurves(solid).percent(Colorant.MAGENTA)).isBetween(80.0, 97.0);
    assertThat(left(cause, solid, correction.byCurves(solid)))
        .isLessThan(0.5 * left(cause, solid, solid));
    InkMixture half = StraightPress.one("Magenta", 50);
    assertThat(left(cause, half, correction.byCurves(half))).isLessThan(left(cause, half, half));
  }

  /** An ink that has lost yellow gets some, in proportion to the tint. */
  @Test
  void curves_spotOffInHue_processInkAddedInProportion() {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", 0, 0, -14);
    Correction.Curve curve =
        curves(cause, StraightPress.mixtures(), 5).get(0).stream()
            .filter(one -> one.ink().name().equals("Dune Red"))
            .findFirst()
            .orElseThrow();
    double solid = curve.points().get(20).addedPercent().get(2);
    assertThat(solid).isBetween(5.0, 25.0);
    for (int i = 1; i <= 20; i++) {
      assertThat(curve.points().get(i).addedPercent().get(2))
          .isCloseTo(solid * i / 20, within(0.02));
    }
    InkMixture whole = StraightPress.one("Dune Red", 100);
    assertThat(left(cause, whole, correction(List.of(curve)).byCurves(whole)))
        .isLessThan(0.5 * left(cause, whole, whole));
  }

  /** Four passes at most, and only as long as a patch comes near to its limit. */
  @Test
  void curves_patchNearItsLimit_triedAgainWithMoreWeight() {
    double[] cause = StraightPress.at(MODEL, Kind.DENSITY, "Cyan", -0.2);
    InkMixture solid = StraightPress.one("Cyan", 100);
    assertThat(curves(cause, StraightPress.mixtures(), 30)).hasSize(1);
    List<List<Correction.Curve>> sets = curves(cause, StraightPress.mixtures(), 1);
    assertThat(sets).hasSize(4);
    assertThat(left(cause, solid, correction(sets.get(3)).byCurves(solid)))
        .isLessThanOrEqualTo(left(cause, solid, correction(sets.get(0)).byCurves(solid)));
  }

  /** Without causes and with curves that change nothing there is nothing left. */
  @Test
  void value_nothingMoved_zeros() {
    CurveFit fit = fit(new double[MODEL.parameters()], List.of(StraightPress.one("Cyan", 50)), 5);
    double[] found = fit.new Model().computeValue(new double[INKS * PER_INK]).toArray();
    assertThat(found).hasSize(3 * (1 + RAMP) + INKS * PER_INK);
    for (double one : found) {
      assertThat(one).isCloseTo(0, within(1e-12));
    }
  }

  /** A solid of 1 − 0.3², two bends, and 0.4² of magenta added, each alone, at a few tints. */
  @ParameterizedTest
  @CsvSource({
    "0, 0.3, 0.5, -0.045, 0, 0.1",
    "0, 0.3, 0.2, -0.018, 0, 0.1",
    "1, 0.1, 0.5, 0.1, 0, 1",
    "1, 0.1, 0.2, 0.064, 0, 1",
    "2, 0.1, 0.5, 0, 0, 1",
    "2, 0.1, 0.2, 0.0384, 0, 1",
    "2, 0.1, 0.8, -0.0384, 0, 1",
    "4, 0.4, 0.5, 0, 0.08, 2",
    "4, 0.4, 0.2, 0, 0.032, 2",
    "4, 0.9, 0.2, 0, 0.1, 2",
    "3, 0.4, 0.2, 0, 0, 2",
  })
  void value_oneParameter_whatIsSentByHand(
      int parameter, double value, double tint, double cyan, double magenta, double charge) {
    CurveFit fit =
        fit(
            new double[MODEL.parameters()],
            List.of(InkMixture.PAPER, StraightPress.one("Cyan", 100 * tint)),
            2.5);
    double[] at = new double[INKS * PER_INK];
    at[parameter] = value;
    double[] found = fit.new Model().computeValue(at).toArray();
    int rows = 2 + RAMP;
    int ramp = 1 + (int) Math.round(10 * tint);
    double[] lab = new double[3];
    double[] difference = new double[3];
    double[] paper = {95, 0, -2};
    for (int axis = 0; axis < 3; axis++) {
      lab[axis] = paper[axis] + tint * StraightPress.SOLIDS[0][axis];
      difference[axis] =
          cyan * StraightPress.SOLIDS[0][axis] + magenta * StraightPress.SOLIDS[1][axis];
    }
    double[] scaled = new double[3];
    PerceptualScale.scale(lab, difference, 0, 1, scaled);
    for (int axis = 0; axis < 3; axis++) {
      assertThat(found[axis]).isZero();
      assertThat(found[3 + axis]).as("strip").isCloseTo(2 * scaled[axis], within(0.005));
      assertThat(found[3 * ramp + axis]).as("ramp").isCloseTo(0.4 * scaled[axis], within(0.005));
    }
    for (int i = 0; i < at.length; i++) {
      assertThat(found[3 * rows + i]).isCloseTo(i == parameter ? charge * value : 0, within(1e-12));
    }
  }

  /**
   * Over the limit, all inks are sent lower alike; a mixture that asks for more keeps its own sum.
   */
  @Test
  void value_overTheInkLimit_sentLowerAlike() {
    double[] tints =
        MODEL.tints(List.of(InkMixture.cmyk(50, 50, 0, 0), InkMixture.cmyk(60, 60, 0, 0)));
    CurveFit fit =
        new CurveFit(MODEL, new double[MODEL.parameters()], tints, new double[] {5, 5}, 100);
    double[] at = new double[INKS * PER_INK];
    at[1] = 0.2;
    at[PER_INK + 1] = 0.2;
    double[] found = fit.new Model().computeValue(at).toArray();
    for (int i = 0; i < 6; i++) {
      assertThat(found[i]).isCloseTo(0, within(0.01));
    }
  }

  /** The slopes are those of the values, about a point where everything is at work. */
  @Test
  void jacobian_everyParameter_theDifferenceQuotientOfValues() {
    double[] cause = StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.05);
    cause[7] = 0.05;
    cause[12] = -1;
    List<InkMixture> mixtures =
        List.of(
            InkMixture.PAPER,
            StraightPress.one("Cyan", 60),
            InkMixture.cmyk(20, 40, 0, 0),
            InkMixture.ofPercents(Map.of("Dune Red", 50.0, "Magenta", 20.0)));
    CurveFit.Model model = fit(cause, mixtures, 5).new Model();
    double[] at = new double[INKS * PER_INK];
    for (int i = 0; i < at.length; i++) {
      int own = i % PER_INK;
      at[i] = own == 0 ? 0.3 : own < 3 ? 0.05 - 0.03 * own : 0.25 + 0.01 * i / PER_INK;
    }
    Pair<RealVector, RealMatrix> both = model.value(new ArrayRealVector(at));
    assertThat(both.getFirst().toArray()).isEqualTo(model.computeValue(at).toArray());
    RealMatrix slopes = both.getSecond();
    double half = 0.02;
    for (int i = 0; i < at.length; i++) {
      double[] other = at.clone();
      other[i] += half;
      double[] up = model.computeValue(other).toArray();
      other[i] -= 2 * half;
      double[] down = model.computeValue(other).toArray();
      assertThat(slopes.getRowDimension()).isEqualTo(up.length);
      for (int row = 0; row < up.length; row++) {
        double quotient = (up[row] - down[row]) / (2 * half);
        assertThat(slopes.getEntry(row, i))
            .as("row %d, parameter %d", row, i)
            .isCloseTo(quotient, within(1 + 0.03 * Math.abs(quotient)));
      }
    }
  }

  private static CurveFit fit(double[] cause, List<InkMixture> mixtures, double limit) {
    double[] limits = new double[mixtures.size()];
    Arrays.fill(limits, limit);
    return new CurveFit(MODEL, cause, MODEL.tints(mixtures), limits, 400);
  }

  private static List<List<Correction.Curve>> curves(
      double[] cause, List<InkMixture> mixtures, double limit) {
    return fit(cause, mixtures, limit).curves();
  }

  private static Correction correction(List<Correction.Curve> curves) {
    return new Correction(curves, Map.of(), 400);
  }

  /** ΔE00 between what is asked for and what the press with the cause makes of what is sent. */
  private static double left(double[] cause, InkMixture asked, InkMixture sent) {
    double[] goal = MODEL.print(new double[MODEL.parameters()], MODEL.tints(List.of(asked)));
    double[] printed = MODEL.print(cause, MODEL.tints(List.of(sent)));
    return ColorDifference.de00(
        new Lab(goal[0], goal[1], goal[2]), new Lab(printed[0], printed[1], printed[2]));
  }
}
