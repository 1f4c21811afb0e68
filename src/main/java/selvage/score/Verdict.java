package selvage.score;

import java.util.Locale;

/** What a check, a set or a proof comes to. */
public enum Verdict {
  /** Within the limits. */
  PASS,
  /** Too close to a limit to decide, or nothing to judge by. */
  UNDECIDED,
  /** Beyond a limit. */
  FAIL;

  /** Returns the word that stands in JSON. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The verdict on the whole: fail if either fails, else undecided if either is. */
  public Verdict and(Verdict other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
