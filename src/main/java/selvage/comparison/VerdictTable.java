package selvage.comparison;

import selvage.score.Verdict;

/** How often the job strip and the standard strip of a proof came to which verdicts. */
public final class VerdictTable {
  private final int[][] counts = new int[Verdict.values().length][Verdict.values().length];

  void add(Verdict job, Verdict standard) {
    counts[place(job)][place(standard)]++;
  }

  private static int place(Verdict verdict) {
    return switch (verdict) {
      case PASS -> 0;
      case FAIL -> 1;
      case UNDECIDED -> 2;
    };
  }

  /** Proofs with these two verdicts. */
  public int count(Verdict job, Verdict standard) {
    return counts[place(job)][place(standard)];
  }

  /** All proofs. */
  public int total() {
    int sum = 0;
    for (int[] row : counts) {
      for (int count : row) {
        sum += count;
      }
    }
    return sum;
  }

  /** The proofs on which both strips decided. */
  public PairedVerdicts decided() {
    return new PairedVerdicts(
        count(Verdict.PASS, Verdict.PASS),
        count(Verdict.FAIL, Verdict.PASS),
        count(Verdict.PASS, Verdict.FAIL),
        count(Verdict.FAIL, Verdict.FAIL));
  }

  /** Escapes among all proofs that the standard strip passed and the job strip decided. */
  public Proportion escapes() {
    PairedVerdicts decided = decided();
    return Proportion.wilson(decided.escapes(), decided.escapes() + decided.bothPass());
  }

  /** False alarms among all proofs that the standard strip failed and the job strip decided. */
  public Proportion falseAlarms() {
    PairedVerdicts decided = decided();
    return Proportion.wilson(decided.falseAlarms(), decided.falseAlarms() + decided.bothFail());
  }
}
