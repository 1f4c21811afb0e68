package selvage.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import selvage.color.ReferenceTable;

/** Published worked examples, and figures by independent code where none was to be had. */
class StatisticsReferenceTest {
  @Test
  void wilson_published_isWithinHalfTheLastDigit() {
    for (double[] row : ReferenceTable.read("wilson-newcombe.csv", "count", "of", "low", "high")) {
      Proportion share = Proportion.wilson((int) row[0], (int) row[1]);
      assertThat(share.low()).isCloseTo(row[2], within(5e-5));
      assertThat(share.high()).isCloseTo(row[3], within(5e-5));
    }
  }

  @Test
  void mcnemar_published_isWithinHalfTheLastDigit() {
    List<double[]> rows =
        ReferenceTable.read(
            "mcnemar-midp.csv",
            "both_pass",
            "escapes",
            "false_alarms",
            "both_fail",
            "exact_p",
            "mid_p");
    for (double[] row : rows) {
      PairedVerdicts pairs =
          new PairedVerdicts((int) row[0], (int) row[1], (int) row[2], (int) row[3]);
      assertThat(pairs.exactP()).isCloseTo(row[4], within(5e-4));
      assertThat(pairs.midP()).isCloseTo(row[5], within(5e-4));
      PairedVerdicts other =
          new PairedVerdicts((int) row[3], (int) row[2], (int) row[1], (int) row[0]);
      assertThat(other.exactP()).isEqualTo(pairs.exactP());
      assertThat(other.midP()).isCloseTo(pairs.midP(), within(1e-12));
    }
  }

  /** By the published formula in independent code. */
  @Test
  void differenceInterval_ofAgrestiAndMin_isThatOfTheirFormula() {
    PairedVerdicts.Interval interval = new PairedVerdicts(60, 20, 40, 40).differenceInterval();
    assertThat(interval.low()).isCloseTo(-0.2160173, within(1e-7));
    assertThat(interval.high()).isCloseTo(-0.0308963, within(1e-7));
  }

  @Test
  void ewma_ofTheHandbook_givesItsAveragesAndLimits() {
    Ewma ewma = new Ewma(0.3, 3);
    double average = 50;
    for (double[] row : ReferenceTable.read("ewma-nist.csv", "x", "ewma")) {
      average = ewma.next(average, row[0]);
      assertThat(average).isCloseTo(row[1], within(5.001e-3));
    }
    assertThat(50 + ewma.limit(2.0539, 1000)).isCloseTo(52.5884, within(5e-5));
    assertThat(50 - ewma.limit(2.0539, 1000)).isCloseTo(47.4115, within(1e-4));
    assertThat(ewma.limit(2.0539, 1)).isCloseTo(0.3 * 3 * 2.0539, within(1e-12));
  }

  @Test
  void signedRank_published_isExact() {
    double[] differences =
        ReferenceTable.read("wilcoxon-hollander.csv", "first", "second").stream()
            .mapToDouble(row -> row[0] - row[1])
            .toArray();
    SignedRank test = SignedRank.of(differences);
    assertThat(test.positiveRanks()).isEqualTo(40);
    assertThat(test.p()).isCloseTo(0.03906, within(5e-6));
    assertThat(test.exact()).isTrue();
  }

  /** All 2¹⁰ signs counted by independent code. */
  @Test
  void signedRank_tiesAndZeros_countsTheSignsOfMeanRanks() {
    SignedRank test = SignedRank.of(new double[] {1, 1, -1, 2, 2, -3, 4, 0, 5, 5, 0, -2});
    assertThat(test.pairs()).isEqualTo(10);
    assertThat(test.zeros()).isEqualTo(2);
    assertThat(test.positiveRanks()).isEqualTo(41);
    assertThat(test.p()).isCloseTo(0.19140625, within(1e-12));
  }

  /** By the formula with its correction for ties in independent code. */
  @Test
  void signedRank_manyPairs_isNormalCorrectedForTies() {
    double[] differences = new double[250];
    for (int i = 0; i < differences.length; i++) {
      differences[i] = (i * 37 % 23 - 10) / 2.0;
    }
    SignedRank test = SignedRank.of(differences);
    assertThat(test.exact()).isFalse();
    assertThat(test.zeros()).isEqualTo(11);
    assertThat(test.positiveRanks()).isEqualTo(16837.5);
    assertThat(test.p()).isCloseTo(0.0194931208, within(1e-9));
  }

  @Test
  void signedRank_nothingButZeros_says1() {
    assertThat(SignedRank.of(new double[] {0, 0}).p()).isEqualTo(1);
    assertThat(SignedRank.of(new double[0]).p()).isEqualTo(1);
  }

  @Test
  void mcnemar_withoutDifference_says1() {
    assertThat(new PairedVerdicts(5, 0, 0, 5).exactP()).isEqualTo(1);
    assertThat(new PairedVerdicts(5, 0, 0, 5).midP()).isEqualTo(1);
    assertThat(new PairedVerdicts(0, 1, 1, 0).exactP()).isEqualTo(1);
    assertThat(new PairedVerdicts(0, 1, 1, 0).midP()).isEqualTo(0.75);
  }

  /** c₄(n) from the gamma function in independent code. */
  @Test
  void c4_ofSomeSizes_isThatOfItsDefinition() {
    assertThat(TrendChart.c4(5)).isCloseTo(0.9399856, within(1e-7));
    assertThat(TrendChart.c4(10)).isCloseTo(0.9726593, within(1e-7));
    assertThat(TrendChart.c4(25)).isCloseTo(0.9896404, within(1e-7));
  }

  /** R's type 7: the quantiles of 1, 2, 4, 8 are 1.75, 3 and 5. */
  @Test
  void quartiles_betweenValues_areInterpolated() {
    Quartiles quartiles = Quartiles.of(new double[] {8, 1, 4, 2});
    assertThat(Arrays.asList(quartiles.lower(), quartiles.median(), quartiles.upper()))
        .containsExactly(1.75, 3.0, 5.0);
    assertThat(quartiles.least()).isEqualTo(1);
    assertThat(quartiles.greatest()).isEqualTo(8);
  }
}
