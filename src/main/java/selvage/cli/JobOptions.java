package selvage.cli;

import java.nio.file.Path;
import selvage.cli.Declaration.Value;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.workflow.SurveyJob;

/** The options of the commands that read a job. */
final class JobOptions {
  final Value<Path> job;
  final ReadingOptions reading;
  final Value<String> pages;
  final Value<AreaKind> area;
  final OutputOptions output;

  JobOptions(Declaration declaration) {
    job = declaration.parameter(0, Path.class, "JOB", null, "The job: a PDF, TIFF or JPEG file.");
    reading = new ReadingOptions(declaration);
    pages =
        declaration.option(
            String.class,
            "RANGES",
            null,
            "Pages to take, for example 1-3,7. Default: all.",
            "--pages");
    area =
        declaration.option(
            AreaKind.class,
            "BOX",
            "trim",
            "What is counted: trim, bleed or media. Default: ${DEFAULT-VALUE}.",
            "--area");
    output = new OutputOptions(declaration);
  }

  /**
   * What is to be surveyed.
   *
   * @param planes folder for the ink planes, or null
   * @param preview file for the picture, or null
   */
  SurveyJob.Request request(Path planes, Path preview) {
    return new SurveyJob.Request(
        job.get(),
        reading.condition.get(),
        pages.get(),
        reading.dpi.get(),
        area.get(),
        reading.spots.get(),
        planes,
        preview,
        ContentLimits.USUAL);
  }
}
