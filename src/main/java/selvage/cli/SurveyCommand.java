package selvage.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import selvage.report.SurveyJson;
import selvage.report.SurveyText;
import selvage.separation.ContentLimits;
import selvage.survey.JobSurvey;
import selvage.workflow.SurveyJob;

/** {@code survey JOB}. */
@Command(
    name = "survey",
    description = "Separates a job into ink planes and says which colours it is made of.")
final class SurveyCommand implements Callable<Integer> {
  @Spec CommandSpec spec;

  @Mixin JobOptions job = new JobOptions();

  @Option(
      names = "--planes",
      paramLabel = "DIR",
      description =
          "Write one 8-bit grey PNG a colorant and page, pNNN.NAME.png, of the whole MediaBox;"
              + " 255 is no ink, 0 is 100 %%.")
  Path planes;

  @Option(
      names = "--preview",
      paramLabel = "FILE.png",
      description = {
        "Write a picture of the page from its ink planes: sRGB, in the condition's colours and on"
            + " its paper, the whole MediaBox, one pixel a sample. Several pages are numbered,"
            + " FILE-p001.png.",
        "It shows whether the separation is right. It is no proof: colours are clipped to sRGB and"
            + " depend on the screen."
      })
  Path preview;

  @Option(
      names = "--colors",
      paramLabel = "N",
      defaultValue = "64",
      description = "How many mixtures a page lists in JSON. Default: ${DEFAULT-VALUE}.")
  int colors;

  @Override
  public Integer call() throws Exception {
    job.output.checkJsonTarget();
    SurveyJob.Request request =
        new SurveyJob.Request(
            job.job,
            job.condition,
            job.pages,
            job.dpi,
            job.area,
            job.spots,
            planes,
            preview,
            ContentLimits.USUAL);
    PrintWriter out = spec.commandLine().getOut();
    JobSurvey survey =
        new SurveyJob(request, job.output.pageProgress(spec.commandLine().getErr())).run();
    job.output.writeJson(out, json -> SurveyJson.write(survey, colors, json));
    if (!job.output.quiet && !job.output.isJsonOnStandardOutput()) {
      SurveyText.write(survey, out);
    }
    return ExitStatus.DONE;
  }
}
