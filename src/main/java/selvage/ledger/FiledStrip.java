package selvage.ledger;

import java.util.Objects;

/**
 * A strip in the ledger, with the job that it was stamped for.
 *
 * @param job what became of the job's file
 * @param stripId the strip
 * @param page of the job, counted from 1
 * @param stripsJson the whole strips file's text, with this strip and its neighbours
 */
public record FiledStrip(JobRecord job, String stripId, int page, String stripsJson) {
  public FiledStrip {
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(stripId, "stripId");
    Objects.requireNonNull(stripsJson, "stripsJson");
  }
}
