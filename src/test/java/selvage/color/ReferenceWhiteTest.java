package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class ReferenceWhiteTest {
  @Test
  void toLab_ownWhite_isOneHundred() {
    for (ReferenceWhite white : ReferenceWhite.values()) {
      assertThat(ColorDifference.de76(new Lab(100, 0, 0), white.toLab(white.xyz())))
          .isLessThan(1e-12);
    }
  }

  @Test
  void toLab_otherWhite_movesB() {
    Lab lab = ReferenceWhite.ISO_13655.toLab(ReferenceWhite.ICC_PCS.xyz());
    assertThat(lab.b()).isCloseTo(0.025, within(0.001));
  }

  @Test
  void toLab_kneeOfTheCurve_isLightnessEight() {
    double y = 100 * 216.0 / 24389.0;
    assertThat(ReferenceWhite.ISO_13655.toLab(new Xyz(0, y, 0)).l()).isCloseTo(8, within(1e-9));
  }
}
