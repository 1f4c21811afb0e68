package selvage.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class StatisticsProperties {
  @Property
  void wilson_anyCount_holdsTheShareAndMirrors(
      @ForAll @IntRange(min = 0, max = 500) int one,
      @ForAll @IntRange(min = 0, max = 500) int two) {
    Proportion share = Proportion.wilson(one, one + two);
    Proportion rest = Proportion.wilson(two, one + two);
    if (one + two > 0) {
      assertThat(share.share()).isBetween(share.low(), share.high());
    }
    assertThat(share.low()).isCloseTo(1 - rest.high(), within(1e-12));
  }

  @Property
  void mcnemar_anyCounts_midPIsBelowExactPAndBothAreShares(
      @ForAll @IntRange(min = 0, max = 300) int escapes,
      @ForAll @IntRange(min = 0, max = 300) int falseAlarms) {
    PairedVerdicts pairs = new PairedVerdicts(10, escapes, falseAlarms, 5);
    assertThat(pairs.exactP()).isBetween(0.0, 1.0);
    assertThat(pairs.midP()).isBetween(0.0, pairs.exactP());
    PairedVerdicts.Interval interval = pairs.differenceInterval();
    assertThat(interval.low()).isBetween(-1.0, interval.high());
    assertThat(interval.high()).isBetween(-1.0, 1.0);
  }

  /** Twelve differences at most: every sign is tried. */
  @Property(tries = 200)
  void signedRank_fewDifferences_isThatOfAllSigns(
      @ForAll @Size(max = 12) List<@IntRange(min = -6, max = 6) Integer> values) {
    double[] differences = values.stream().mapToDouble(Integer::doubleValue).toArray();
    SignedRank test = SignedRank.of(differences);
    double[] sizes =
        Arrays.stream(differences).filter(value -> value != 0).map(Math::abs).toArray();
    double[] ranks = new double[sizes.length];
    double total = 0;
    for (int i = 0; i < sizes.length; i++) {
      for (double other : sizes) {
        ranks[i] += other < sizes[i] ? 1 : other == sizes[i] ? 0.5 : 0;
      }
      ranks[i] += 0.5;
      total += ranks[i];
    }
    double smaller = Math.min(test.positiveRanks(), total - test.positiveRanks());
    int asFar = 0;
    for (int signs = 0; signs < 1 << sizes.length; signs++) {
      double sum = 0;
      for (int i = 0; i < sizes.length; i++) {
        sum += (signs >> i & 1) * ranks[i];
      }
      asFar += sum <= smaller ? 1 : 0;
    }
    double p = Math.min(1, 2 * asFar / Math.pow(2, sizes.length));
    assertThat(test.p()).isCloseTo(p, within(1e-9));
  }
}
