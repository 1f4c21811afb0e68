package selvage.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.report.SurveyJson;
import selvage.report.SurveyText;
import selvage.survey.JobSurvey;
import selvage.workflow.SurveyJob;

/** {@code survey JOB}. */
final class SurveyCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this, "Separates a job into ink planes and says which colours it is made of.");

  final JobOptions job = new JobOptions(declaration);

  final Value<Path> planes =
      declaration.option(
          Path.class,
          "DIR",
          null,
          "Write one 8-bit grey PNG a colorant and page, pNNN.NAME.png, of the whole MediaBox;"
              + " 255 is no ink, 0 is 100 %%.",
          "--planes");

  final Value<Path> preview =
      declaration.option(
          Path.class,
          "FILE.png",
          null,
          "Write a picture of the page from its ink planes: sRGB, in the condition's colours and on"
              + " its paper, the whole MediaBox, one pixel a sample. Several pages are numbered,"
              + " FILE-p001.png.%n"
              + "It shows whether the separation is right. It is no proof: colours are clipped to sRGB and"
              + " depend on the screen.",
          "--preview");

  final Value<Integer> colors =
      declaration.option(
          Integer.class,
          "N",
          "64",
          "How many mixtures a page lists in JSON. Default: ${DEFAULT-VALUE}.",
          "--colors");

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws Exception {
    job.output.checkJsonTarget();
    PrintWriter out = declaration.out();
    JobSurvey survey =
        new SurveyJob(
                job.request(planes.get(), preview.get()),
                job.output.pageProgress(declaration.err()))
            .run();
    job.output.writeJson(out, json -> SurveyJson.write(survey, colors.get(), json));
    if (!job.output.quiet.get() && !job.output.isJsonOnStandardOutput()) {
      SurveyText.write(survey, out);
    }
    return ExitStatus.DONE;
  }
}
