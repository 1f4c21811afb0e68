package selvage.web;

import selvage.ledger.JobRecord;

/** What became of a job, in words for pages. */
public final class StateWords {
  private StateWords() {}

  /** The words. */
  public static String of(JobRecord.State state) {
    return switch (state) {
      case STAMPED -> "stamped";
      case REFUSED -> "refused";
      case MEASUREMENT_REFUSED -> "measurement refused";
    };
  }
}
