package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class StatisticProperties {
  @Property(tries = 300, seed = "20261125")
  void areaP95_anyWeights_isTheLeastValueThatHoldsTheShare(
      @ForAll @Size(min = 1, max = 40) List<@IntRange(max = 30) Integer> figures,
      @ForAll @Size(value = 40) List<@DoubleRange(min = 0.01, max = 10) Double> shares) {
    double[] values = figures.stream().mapToDouble(value -> value / 4.0).toArray();
    double[] weights = shares.stream().limit(values.length).mapToDouble(share -> share).toArray();
    double found = Statistic.AREA_P95.of(values, weights);
    assertThat(share(values, weights, found)).isGreaterThanOrEqualTo(0.95 - 1e-8);
    for (double value : values) {
      if (value < found) {
        assertThat(share(values, weights, value)).isLessThan(0.95);
      }
    }
  }

  @Property(tries = 200, seed = "20261125")
  void areaStatistics_equalWeights_arePlain(
      @ForAll @Size(min = 1, max = 60) List<@DoubleRange(max = 20) Double> figures,
      @ForAll @DoubleRange(min = 0.1, max = 50) double weight) {
    double[] values = figures.stream().mapToDouble(value -> value).toArray();
    double[] weights = new double[values.length];
    java.util.Arrays.fill(weights, weight);
    assertThat(Statistic.AREA_P95.of(values, weights)).isEqualTo(Statistic.P95.of(values, weights));
    assertThat(Statistic.AREA_MEAN.of(values, weights))
        .isCloseTo(Statistic.MEAN.of(values, weights), within(1e-9));
    assertThat(Statistic.P95.of(values, weights))
        .isLessThanOrEqualTo(Statistic.MAX.of(values, weights));
  }

  private static double share(double[] values, double[] weights, double upTo) {
    double all = 0;
    double within = 0;
    for (int i = 0; i < values.length; i++) {
      all += weights[i];
      within += values[i] <= upTo ? weights[i] : 0;
    }
    return within / all;
  }
}
