package selvage.workflow;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.sheet.ProofDocument;
import selvage.sheet.StampedStrip;
import selvage.strip.JobChoice;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripLayout;
import selvage.survey.JobSurvey;

/**
 * A strip as it will be stamped, before anything is written.
 *
 * @param strip as the strips file will tell of it; where strips of pages before get pages of their
 *     own, {@link Strip.Place#proofPage} grows by as many
 * @param layout in the strip's own frame, its text reading from left to right
 * @param upright whether its rows run from the bottom to the top of the page as displayed
 * @param findings doubts about this strip; those of the survey are not among them
 */
public record StripPreview(
    Strip strip, StripLayout layout, boolean upright, List<Finding> findings) {
  public StripPreview {
    Objects.requireNonNull(strip, "strip");
    Objects.requireNonNull(layout, "layout");
    findings = List.copyOf(findings);
  }

  /**
   * Makes the strip of one page in memory.
   *
   * @param survey of this very file
   * @param page of the job that bears the strip, counted from 1
   * @throws InputException where the job or an option's file can't be used, the page bears no
   *     strip, or patches were approved that the job does not have
   */
  public static StripPreview of(Path job, JobSurvey survey, int page, StampOptions options)
      throws InputException, IOException {
    return of(job, survey, page, options, Optional.empty());
  }

  /**
   * As {@link #of(Path, JobSurvey, int, StampOptions)}, the sooner by what the choice knows.
   *
   * @param choice for the census of that page, or with {@link StampOptions#perJob} of all, made
   *     with the aims of the standard strip that the options name
   */
  public static StripPreview of(
      Path job, JobSurvey survey, int page, StampOptions options, JobChoice choice)
      throws InputException, IOException {
    return of(job, survey, page, options, Optional.of(choice));
  }

  private static StripPreview of(
      Path job, JobSurvey survey, int page, StampOptions options, Optional<JobChoice> choice)
      throws InputException, IOException {
    StripMaker maker = new StripMaker(job, survey, options);
    StripShare share = maker.share(page);
    try (ProofDocument document = ProofDocument.open(job)) {
      StripMaker.Made made =
          choice.isPresent()
              ? maker.make(document, share, choice.get())
              : maker.make(document, share);
      StampedStrip stamped = made.stamped();
      return new StripPreview(made.strip(), stamped.layout(), stamped.upright(), made.findings());
    }
  }

  /** Where the strip will lie. */
  public Strip.Place place() {
    return strip.place();
  }

  /** The patches with their ids, and their boxes from the lower left corner as displayed. */
  public List<Patch> patches() {
    return strip.patches();
  }
}
