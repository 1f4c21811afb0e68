package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ColorDifferenceTest {
  @Test
  void de76_threeFourTwelve_isThirteen() {
    assertThat(ColorDifference.de76(new Lab(50, 0, 0), new Lab(53, 4, 12)))
        .isCloseTo(13, within(1e-12));
  }

  @Test
  void de94_chromaOfTheReference_weighsChromaAndHue() {
    Lab gray = new Lab(50, 0, 0);
    Lab vivid = new Lab(50, 40, 0);
    assertThat(ColorDifference.de94(gray, vivid)).isCloseTo(40, within(1e-12));
    assertThat(ColorDifference.de94(vivid, gray)).isCloseTo(40 / 2.8, within(1e-12));
  }

  @Test
  void dCh_lightnessOnly_isZero() {
    assertThat(ColorDifference.dCh(new Lab(20, 1, 2), new Lab(90, 1, 2))).isZero();
    assertThat(ColorDifference.dCh(new Lab(20, 1, 2), new Lab(20, 4, 6)))
        .isCloseTo(5, within(1e-12));
  }

  @Test
  void dH_quarterTurn_isChromaTimesRootTwo() {
    double expected = 2 * 30 * Math.sin(Math.PI / 4);
    assertThat(ColorDifference.dH(new Lab(50, 30, 0), new Lab(50, 0, 30)))
        .isCloseTo(expected, within(1e-12));
    assertThat(ColorDifference.dH(new Lab(50, 0, 30), new Lab(50, 30, 0)))
        .isCloseTo(-expected, within(1e-12));
  }

  @Test
  void dH_acrossTheRedAxis_takesTheShorterWay() {
    assertThat(ColorDifference.dH(new Lab(50, 30, -1), new Lab(50, 30, 1)))
        .isCloseTo(2, within(1e-9));
  }

  @Test
  void dH_neutral_isZero() {
    assertThat(ColorDifference.dH(new Lab(50, 0, 0), new Lab(50, 30, 1))).isZero();
  }

  @Test
  void dL_darkerSample_isNegative() {
    assertThat(ColorDifference.dL(new Lab(50, 0, 0), new Lab(47, 0, 0))).isEqualTo(-3);
  }
}
