package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.report.StampText;
import selvage.survey.JobSurvey;
import selvage.workflow.StampJob;
import selvage.workflow.StampOptions;
import selvage.workflow.SurveyJob;

/** {@code stamp JOB -o PROOF.pdf}. */
final class StampCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this,
          "Chooses patches of the job's own colours, lays them out beside a standard strip and puts"
              + " both on the sheet, outside the bleed.");

  final JobOptions job = new JobOptions(declaration);

  final Value<Path> proof =
      declaration.required(
          Path.class, "PROOF.pdf", "Where the stamped proof goes.", "-o", "--output");

  private final StampingOptions stamping = new StampingOptions(declaration);

  final Value<Path> separate =
      declaration.option(
          Path.class,
          "FILE.pdf",
          null,
          "Write the strips alone as well, one a page, to be printed by themselves.",
          "--separate");

  private final TimeOption time =
      new TimeOption(
          declaration,
          "on the label and in the file",
          " The same job, options and time give the same bytes.");

  StampCommand() {
    declaration.footer(
        "",
        "Writes PROOF.pdf, PROOF.strips.json and, for each stamped page, PROOF.strip-pNNN.txt"
            + " (CGATS.17).",
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    StampOptions options =
        new StampOptions(
            stamping.checkedPatches(),
            stamping.standard.get(),
            stamping.reader.get(),
            stamping.checkedEdge(),
            stamping.isPerJob(),
            Optional.ofNullable(separate.get()),
            stamping.labelItems(),
            time.get());
    job.output.checkJsonTarget();
    PrintWriter out = declaration.out();
    PrintWriter err = declaration.err();
    JobSurvey survey = new SurveyJob(job.request(null, null), job.output.pageProgress(err)).run();
    StampJob.Result result = StampJob.run(job.job.get(), survey, proof.get(), options);
    job.output.writeJson(out, result::writeTo);
    if (!job.output.quiet.get() && !job.output.isJsonOnStandardOutput()) {
      StampText.write(result.strips(), result.findings(), result.written(), out);
      out.flush();
    }
    return ExitStatus.DONE;
  }
}
