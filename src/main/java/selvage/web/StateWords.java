package selvage.web;

import selvage.ledger.JobRecord;
import selvage.strip.Reason;

/** What became of a job and why a patch was taken, in words for pages. */
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

  /** Why a patch was taken. */
  public static String of(Reason reason) {
    return switch (reason) {
      case SPOT -> "spot colour, fullest";
      case SPOT_TINT -> "tint of a spot colour";
      case OVERPRINT -> "spot colour with other inks";
      case DARKEST -> "darkest of the job";
      case LIGHTEST -> "lightest tint";
      case MOST_INK -> "highest total ink";
      case NEUTRAL -> "close to grey";
      case COVERAGE -> "much of the page lies near it";
      case OPERATOR -> "taken in by an operator";
    };
  }
}
