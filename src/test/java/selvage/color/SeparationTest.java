package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SeparationTest {
  private static final Offset<Float> THOUSANDTH = within(0.001f);

  @ParameterizedTest
  @ValueSource(strings = {"FOGRA39", "TR006", "FOGRA40", "TR002"})
  void separate_white_isExactlyNoInk(String name) throws Exception {
    assertThat(ReferenceConditions.resolve(name).condition().separate(new Lab(100, 0, 0)))
        .containsExactly(0, 0, 0, 0);
  }

  @Test
  void separate_black_isSolidBlackOverTheInkLimitsRest() {
    ReferenceCondition condition = ReferenceConditions.defaultCondition();
    float[] black = condition.separate(new Lab(0, 0, 0));
    assertThat(black[3]).isCloseTo(1f, THOUSANDTH);
    assertThat(black[0] + black[1] + black[2]).isCloseTo(2.1f, THOUSANDTH);
    assertThat(condition.aim(100 * black[0], 100 * black[1], 100 * black[2], 100).lab().l())
        .isLessThan(11);
  }

  @Test
  void separate_lightGray_hasNoBlack() {
    assertThat(ReferenceConditions.defaultCondition().separate(new Lab(90, 0, 0))[3]).isZero();
  }

  @Test
  void separate_fineGrayRamp_movesWithoutSteps() {
    ReferenceCondition condition = ReferenceConditions.defaultCondition();
    float[] before = condition.separate(new Lab(100, 0, 0));
    for (int i = 1; i <= 1000; i++) {
      float[] now = condition.separate(new Lab(100 - i / 10.0, 0, 0));
      for (int ink = 0; ink < 4; ink++) {
        assertThat(now[ink])
            .as("ink %d at L* %s", ink, 100 - i / 10.0)
            .isCloseTo(before[ink], within(0.012f));
      }
      before = now;
    }
  }
}
