package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MarkGridTest {
  private static final double SAMPLE_MM = 25.4 / 300;

  @ParameterizedTest
  @ValueSource(doubles = {-88.9, -3.21, 0, 0.04, 17.3, 210.0123})
  void near_playOnBothSides_isTheNearestWholeSample(double wanted) {
    double found = MarkGrid.near(wanted, wanted - 1, wanted + 1);
    assertThat(found / SAMPLE_MM).isCloseTo(Math.rint(found / SAMPLE_MM), within(1e-6));
    assertThat(Math.abs(found - wanted)).isLessThanOrEqualTo(SAMPLE_MM / 2 + 1e-9);
  }

  @Test
  void near_playOnOneSide_staysWithinIt() {
    double wanted = 10.4 * SAMPLE_MM;
    assertThat(MarkGrid.near(wanted, wanted, wanted + 1)).isCloseTo(11 * SAMPLE_MM, within(1e-9));
    wanted = 10.6 * SAMPLE_MM;
    assertThat(MarkGrid.near(wanted, wanted - 1, wanted)).isCloseTo(10 * SAMPLE_MM, within(1e-9));
  }

  @Test
  void near_noPlay_isAsWanted() {
    assertThat(MarkGrid.near(1.23, 1.23, 1.23)).isEqualTo(1.23);
  }
}
