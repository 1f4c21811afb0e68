package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StatisticTest {
  /** Of n values 1..n the smallest that at least 95 % do not exceed is the ceiling of 0.95 n. */
  @ParameterizedTest
  @CsvSource({"1, 1", "10, 10", "19, 19", "20, 19", "21, 20", "24, 23", "40, 38", "1617, 1537"})
  void of_p95OfOneToN_rankByHand(int n, double expected) {
    double[] falling = IntStream.range(0, n).mapToDouble(i -> n - i).toArray();
    assertThat(Statistic.P95.of(falling, falling)).isEqualTo(expected);
  }

  @Test
  void of_weights_byHand() {
    double[] values = {1, 4, 2};
    double[] weights = {50, 5, 45};
    assertThat(Statistic.AREA_MEAN.of(values, weights)).isCloseTo(1.6, within(1e-12));
    assertThat(Statistic.AREA_P95.of(values, weights)).isEqualTo(2);
    assertThat(Statistic.AREA_P95.of(values, new double[] {50, 5.1, 44.9})).isEqualTo(4);
    assertThat(Statistic.MEAN.of(values, weights)).isCloseTo(7 / 3.0, within(1e-12));
    assertThat(Statistic.MAX.of(values, weights)).isEqualTo(4);
  }

  @Test
  void of_twentyWeightsOfOneTwentieth_notMissedByALastBit() {
    double[] values = IntStream.rangeClosed(1, 20).asDoubleStream().toArray();
    double[] weights = IntStream.rangeClosed(1, 20).mapToDouble(i -> 0.05).toArray();
    assertThat(Statistic.AREA_P95.of(values, weights)).isEqualTo(19);
  }

  @Test
  void of_nothing_refused() {
    assertThatThrownBy(() -> Statistic.MEAN.of(new double[0], new double[0]))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Statistic.AREA_MEAN.of(new double[] {1}, new double[] {0}))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
