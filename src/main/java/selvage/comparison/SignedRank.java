package selvage.comparison;

import java.util.Arrays;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.stat.ranking.NaNStrategy;
import org.apache.commons.math3.stat.ranking.NaturalRanking;
import org.apache.commons.math3.stat.ranking.TiesStrategy;

/**
 * The signed-rank test of Wilcoxon (1945) on differences of pairs, two-sided. Differences of 0 are
 * left out, as he did; equal sizes share the mean of their ranks. Up to {@link #MOST_EXACT} pairs p
 * is exact over all signs, ties as they are; beyond, normal with the variance corrected for ties
 * and a continuity correction of 1/2.
 *
 * @param pairs that were not 0
 * @param zeros differences of 0, left out
 * @param positiveRanks sum of the ranks of differences above 0 (V or T+)
 * @param p two-sided; 1 where there are no pairs
 * @param exact whether p is
 */
public record SignedRank(int pairs, int zeros, double positiveRanks, double p, boolean exact) {
  /** The most pairs for which every sum of ranks is counted. */
  public static final int MOST_EXACT = 200;

  /** The test of differences. */
  public static SignedRank of(double[] differences) {
    double[] kept = Arrays.stream(differences).filter(value -> value != 0).toArray();
    int zeros = differences.length - kept.length;
    if (kept.length == 0) {
      return new SignedRank(0, zeros, 0, 1, true);
    }
    double[] ranks =
        new NaturalRanking(NaNStrategy.FAILED, TiesStrategy.AVERAGE)
            .rank(Arrays.stream(kept).map(Math::abs).toArray());
    double positive = 0;
    for (int i = 0; i < kept.length; i++) {
      positive += kept[i] > 0 ? ranks[i] : 0;
    }
    boolean exact = kept.length <= MOST_EXACT;
    double p = exact ? exactP(ranks, positive) : normalP(ranks, positive);
    return new SignedRank(kept.length, zeros, positive, p, exact);
  }

  /** Twice the smaller tail of the distribution over all signs, by adding rank after rank. */
  private static double exactP(double[] ranks, double positive) {
    int most = 0;
    for (double rank : ranks) {
      most += doubled(rank);
    }
    double[] shares = new double[most + 1];
    shares[0] = 1;
    int reached = 0;
    for (double rank : ranks) {
      int step = doubled(rank);
      reached += step;
      for (int sum = reached; sum >= 0; sum--) {
        shares[sum] = (shares[sum] + (sum >= step ? shares[sum - step] : 0)) / 2;
      }
    }
    int seen = doubled(positive);
    int smaller = Math.min(seen, most - seen);
    double tail = 0;
    for (int sum = 0; sum <= smaller; sum++) {
      tail += shares[sum];
    }
    return Math.min(1, 2 * tail);
  }

  /** Mean ranks of ties end in a half at most. */
  private static int doubled(double rank) {
    return (int) Math.round(2 * rank);
  }

  /** The ranks' squares have the correction for ties in them. */
  private static double normalP(double[] ranks, double positive) {
    double sum = 0;
    double squares = 0;
    for (double rank : ranks) {
      sum += rank;
      squares += rank * rank;
    }
    double away = Math.max(0, Math.abs(positive - sum / 2) - 0.5);
    double z = away / Math.sqrt(squares / 4);
    return Math.min(1, 2 * new NormalDistribution(null, 0, 1).cumulativeProbability(-z));
  }
}
