package selvage.survey;

import java.util.List;
import java.util.Objects;
import selvage.color.ReferenceCondition;

/**
 * A surveyed job.
 *
 * @param job the customer's file
 * @param condition the reference printing condition of its colours
 * @param pages the pages that were taken, in order
 */
public record JobSurvey(JobFile job, ReferenceCondition condition, List<PageSurvey> pages) {
  public JobSurvey {
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(condition, "condition");
    pages = List.copyOf(pages);
  }
}
