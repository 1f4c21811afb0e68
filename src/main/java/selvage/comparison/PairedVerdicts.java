package selvage.comparison;

import org.apache.commons.math3.distribution.BinomialDistribution;

/**
 * Pass or fail by two strips on the same proofs, undecided ones left out.
 *
 * @param bothPass by both
 * @param escapes passed by the standard strip, failed by the job strip
 * @param falseAlarms failed by the standard strip, passed by the job strip
 * @param bothFail by both
 */
public record PairedVerdicts(int bothPass, int escapes, int falseAlarms, int bothFail) {
  /** An interval of a difference of shares, −1 to 1. */
  public record Interval(double low, double high) {}

  public PairedVerdicts {
    if (bothPass < 0 || escapes < 0 || falseAlarms < 0 || bothFail < 0) {
      throw new IllegalArgumentException("a count below 0");
    }
  }

  /** All pairs. */
  public int pairs() {
    return bothPass + escapes + falseAlarms + bothFail;
  }

  /**
   * The exact two-sided p of McNemar's test: escapes and false alarms are equally likely, given
   * their sum (binomial with 1/2) [fagerland2013].
   *
   * @return 1 where the strips never differ
   */
  public double exactP() {
    int fewer = Math.min(escapes, falseAlarms);
    return escapes == falseAlarms ? 1 : Math.min(1, 2 * (below(fewer) + seen()));
  }

  /**
   * The mid-p of the same test: the exact p less the probability of what was seen; 1 less half of
   * it where escapes and false alarms are as many [fagerland2013].
   */
  public double midP() {
    if (escapes + falseAlarms == 0) {
      return 1;
    }
    int fewer = Math.min(escapes, falseAlarms);
    return escapes == falseAlarms ? 1 - seen() / 2 : Math.min(1, 2 * below(fewer) + seen());
  }

  private double seen() {
    return discordant().probability(escapes);
  }

  /** Term by term: the library's cumulative function loses small tails to rounding. */
  private double below(int count) {
    BinomialDistribution discordant = discordant();
    double sum = 0;
    for (int i = 0; i < count; i++) {
      sum += discordant.probability(i);
    }
    return sum;
  }

  private BinomialDistribution discordant() {
    return new BinomialDistribution(null, escapes + falseAlarms, 0.5);
  }

  /** The share that the job strip fails less the share that the standard strip fails. */
  public double difference() {
    return (double) (escapes - falseAlarms) / pairs();
  }

  /**
   * Its interval at 95 %: Wald's after half a proof is added to each of the four counts
   * [agresti2005], cut at −1 and 1.
   */
  public Interval differenceInterval() {
    double n = pairs() + 2;
    double d = (escapes - falseAlarms) / n;
    double error = Math.sqrt(escapes + falseAlarms + 1 - n * d * d) / n;
    return new Interval(
        Math.max(-1, d - Proportion.Z * error), Math.min(1, d + Proportion.Z * error));
  }
}
