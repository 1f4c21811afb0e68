package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Curves by their definitions in ICC.1:2022, 10.6 and 10.18, worked by hand. */
class IccCurveTest {
  @Test
  void at_table_straightBetweenEntriesHeldAtTheEnds() {
    IccCurve curve = IccCurve.ofTable(new double[] {0, 0.2, 1});
    assertThat(curve.at(0.25)).isCloseTo(0.1, within(1e-12));
    assertThat(curve.at(0.5)).isCloseTo(0.2, within(1e-12));
    assertThat(curve.at(0.75)).isCloseTo(0.6, within(1e-12));
    assertThat(curve.at(1)).isEqualTo(1);
    assertThat(curve.at(-1)).isZero();
    assertThat(curve.at(2)).isEqualTo(1);
  }

  @Test
  void at_gamma_power() {
    assertThat(IccCurve.ofGamma(2).at(0.5)).isCloseTo(0.25, within(1e-12));
    assertThat(IccCurve.ofGamma(1).at(0.3)).isEqualTo(0.3);
    assertThat(IccCurve.ofGamma(2).at(3)).isEqualTo(1);
  }

  @Test
  void at_type1_powerAboveItsRootNothingBelow() {
    IccCurve curve = new IccCurve(null, 1, new double[] {2, 2, -0.5, 0, 0, 0, 0}, 0);
    assertThat(curve.at(0.2)).isZero();
    assertThat(curve.at(0.25)).isZero();
    assertThat(curve.at(0.5)).isCloseTo(0.25, within(1e-12));
    assertThat(curve.at(0.7)).isCloseTo(0.81, within(1e-12));
  }

  @Test
  void at_type2_theSameWithAnOffset() {
    IccCurve curve = new IccCurve(null, 2, new double[] {2, 2, -0.5, 0.1, 0, 0, 0}, 0);
    assertThat(curve.at(0.2)).isCloseTo(0.1, within(1e-12));
    assertThat(curve.at(0.5)).isCloseTo(0.35, within(1e-12));
    assertThat(curve.at(1)).isEqualTo(1);
  }

  /** The curve of IEC 61966-2-1: 0.5 is 0.21404, 0.04045 where the line ends. */
  @Test
  void at_type3_sRgb() {
    IccCurve curve =
        new IccCurve(
            null, 3, new double[] {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045, 0, 0}, 0);
    assertThat(curve.at(0.5)).isCloseTo(0.214041, within(1e-6));
    assertThat(curve.at(0.02)).isCloseTo(0.02 / 12.92, within(1e-12));
    assertThat(curve.at(0.04045)).isCloseTo(0.0031308, within(1e-6));
    assertThat(curve.at(1)).isCloseTo(1, within(1e-12));
  }

  @Test
  void at_type4_twoPartsEachWithItsOffset() {
    IccCurve curve = new IccCurve(null, 4, new double[] {2, 1, 0.1, 0.5, 0.4, 0.2, 0.05}, 0);
    assertThat(curve.at(0.2)).isCloseTo(0.15, within(1e-12));
    assertThat(curve.at(0.4)).isCloseTo(0.45, within(1e-12));
    assertThat(curve.at(0.7)).isCloseTo(0.84, within(1e-12));
  }
}
