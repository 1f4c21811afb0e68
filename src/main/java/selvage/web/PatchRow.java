package selvage.web;

import java.util.Objects;
import java.util.OptionalDouble;
import selvage.report.FiledScore.PatchResult;

/**
 * A patch in a score's table.
 *
 * @param anchor its row's id
 * @param build its inks in words; empty where the ledger lacks the strip
 * @param share of the inked area for which it stands, percent; job patches only
 * @param result what it came to
 */
public record PatchRow(String anchor, String build, OptionalDouble share, PatchResult result) {
  public PatchRow {
    Objects.requireNonNull(build, "build");
    Objects.requireNonNull(share, "share");
    Objects.requireNonNull(result, "result");
  }

  /** The patch's id. */
  public String id() {
    return result.id();
  }

  /** The word of its set. */
  public String set() {
    return result.set().word();
  }
}
