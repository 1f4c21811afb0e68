package selvage.cli;

import java.nio.file.Path;
import java.util.List;
import selvage.cli.Declaration.Value;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.workflow.SurveyJob;

/** The options of the commands that read a job. */
final class JobOptions {
  final Value<Path> job;
  final Value<String> condition;
  final Value<String> pages;
  final Value<Double> dpi;
  final Value<AreaKind> area;
  final Value<List<Path>> spots;
  final OutputOptions output;

  JobOptions(Declaration declaration) {
    job = declaration.parameter(0, Path.class, "JOB", null, "The job: a PDF, TIFF or JPEG file.");
    condition =
        declaration.option(
            String.class,
            "NAME|FILE",
            null,
            "Reference printing condition: a built-in name, an ICC output profile, or a CGATS"
                + " characterization file. Default: the job's output intent, else FOGRA39.",
            "--condition");
    pages =
        declaration.option(
            String.class,
            "RANGES",
            null,
            "Pages to take, for example 1-3,7. Default: all.",
            "--pages");
    dpi =
        declaration.option(
            Double.class,
            "N",
            "150",
            "Samples an inch, 18 to 1200. Default: ${DEFAULT-VALUE}.",
            "--dpi");
    area =
        declaration.option(
            AreaKind.class,
            "BOX",
            "trim",
            "What is counted: trim, bleed or media. Default: ${DEFAULT-VALUE}.",
            "--area");
    spots =
        declaration.options(
            Path.class,
            "FILE",
            "Spot colour library (CGATS). May be given several times; the first that has a"
                + " colour counts.",
            "--spots");
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
        condition.get(),
        pages.get(),
        dpi.get(),
        area.get(),
        spots.get(),
        planes,
        preview,
        ContentLimits.USUAL);
  }
}
