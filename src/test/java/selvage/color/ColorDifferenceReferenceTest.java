package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ColorDifferenceReferenceTest {
  private static final double HALF_DIGIT = 0.00005 + 1e-9;

  private static List<double[]> pairs() {
    return ReferenceTable.read(
        "ciede2000-sharma2005.csv", "pair", "l1", "a1", "b1", "l2", "a2", "b2", "de00");
  }

  @Test
  void de00_publishedPairs_allFourDecimals() {
    List<double[]> pairs = pairs();
    assertThat(pairs).hasSize(34);
    for (double[] p : pairs) {
      Lab first = new Lab(p[1], p[2], p[3]);
      Lab second = new Lab(p[4], p[5], p[6]);
      assertThat(ColorDifference.de00(first, second))
          .as("pair %.0f", p[0])
          .isCloseTo(p[7], within(HALF_DIGIT));
      assertThat(ColorDifference.de00(second, first))
          .as("pair %.0f the other way round", p[0])
          .isCloseTo(p[7], within(HALF_DIGIT));
    }
  }

  @Test
  void de00Kernel_publishedPairs_threeDecimals() {
    for (double[] p : pairs()) {
      assertThat(De00KernelTest.kernel(p[1], p[2], p[3], p[4], p[5], p[6]))
          .as("pair %.0f", p[0])
          .isCloseTo(p[7], within(0.001));
    }
  }
}
