package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import selvage.finding.InputException;
import selvage.report.StampText;
import selvage.separation.ContentLimits;
import selvage.sheet.Edge;
import selvage.strip.JobSet;
import selvage.strip.StripLabel;
import selvage.survey.JobSurvey;
import selvage.workflow.StampJob;
import selvage.workflow.StampOptions;
import selvage.workflow.SurveyJob;

/** {@code stamp JOB -o PROOF.pdf}. */
@Command(
    name = "stamp",
    description =
        "Chooses patches of the job's own colours, lays them out beside a standard strip and puts"
            + " both on the sheet, outside the bleed.",
    footer = {
      "",
      "Writes PROOF.pdf, PROOF.strips.json and, for each stamped page, PROOF.strip-pNNN.txt"
          + " (CGATS.17).",
      "",
      "Results support, and do not replace, agreed standards, the instrument maker's",
      "instructions and the judgement of those who sign the proof."
    })
final class StampCommand implements Callable<Integer> {
  /** What one strip stands for. */
  enum Scope {
    PAGE,
    JOB
  }

  @Spec CommandSpec spec;

  @Mixin JobOptions job = new JobOptions();

  @Option(
      names = {"-o", "--output"},
      required = true,
      paramLabel = "PROOF.pdf",
      description = "Where the stamped proof goes.")
  Path proof;

  @Option(
      names = "--patches",
      paramLabel = "N",
      defaultValue = "24",
      description = "Job patches a strip, 1 to 200. Default: ${DEFAULT-VALUE}.")
  int patches;

  @Option(
      names = "--standard",
      paramLabel = "NAME|FILE",
      defaultValue = "full",
      description =
          "Standard strip: full, basic, a CGATS file of CMYK tints in percent, or none (paper"
              + " only). Default: ${DEFAULT-VALUE}.")
  String standard;

  @Option(
      names = "--reader",
      paramLabel = "NAME|FILE",
      defaultValue = "handheld-spot",
      description =
          "Geometry for the instrument: handheld-spot, handheld-scan, strip-feeder, xy-table, or a"
              + " file of that form. Default: ${DEFAULT-VALUE}.")
  String reader;

  @Option(
      names = "--edge",
      paramLabel = "EDGE",
      defaultValue = "auto",
      description =
          "Edge of the page as displayed: auto (free space, else where the sheet grows least), top,"
              + " right, bottom or left. Default: ${DEFAULT-VALUE}.")
  String edge;

  @Option(
      names = "--per",
      paramLabel = "SCOPE",
      defaultValue = "page",
      description =
          "One strip a page, or one for the whole job on its first page: page or job. Default:"
              + " ${DEFAULT-VALUE}.")
  Scope per;

  @Option(
      names = "--separate",
      paramLabel = "FILE.pdf",
      description = "Write the strips alone as well, one a page, to be printed by themselves.")
  Path separate;

  @Option(
      names = "--evaluated-as",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "For the label: what the proof is evaluated as. Default: not stated.")
  String evaluatedAs;

  @Option(
      names = "--proofing-system",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "For the label: the proofing system. Default: not stated.")
  String proofingSystem;

  @Option(
      names = "--ink-set",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "For the label: the proofing system's inks. Default: not stated.")
  String inkSet;

  @Option(
      names = "--substrate",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "For the label: the proofing substrate. Default: not stated.")
  String substrate;

  @Option(
      names = "--profile",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "For the label: the simulation profile. Default: not stated.")
  String profile;

  @Option(
      names = "--time",
      paramLabel = "INSTANT",
      description =
          "Date and time on the label and in the file, UTC, for example 2026-11-25T10:03:00Z."
              + " Default: now. The same job, options and time give the same bytes.")
  String time;

  @Override
  public Integer call() throws InputException, IOException {
    StampOptions options =
        new StampOptions(
            checkedPatches(),
            standard,
            reader,
            edge(),
            per == Scope.JOB,
            Optional.ofNullable(separate),
            List.of(
                new StripLabel.Item("Evaluated as", evaluatedAs),
                new StripLabel.Item("Proofing system", proofingSystem),
                new StripLabel.Item("Ink set", inkSet),
                new StripLabel.Item("Substrate", substrate),
                new StripLabel.Item("Simulation profile", profile)),
            time());
    job.output.checkJsonTarget();
    SurveyJob.Request request =
        new SurveyJob.Request(
            job.job,
            job.condition,
            job.pages,
            job.dpi,
            job.area,
            job.spots,
            null,
            null,
            ContentLimits.USUAL);
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    JobSurvey survey = new SurveyJob(request, job.output.pageProgress(err)).run();
    StampJob.Result result = StampJob.run(job.job, survey, proof, options);
    job.output.writeJson(out, result::writeTo);
    if (!job.output.quiet && !job.output.isJsonOnStandardOutput()) {
      StampText.write(result.strips(), result.findings(), result.written(), out);
      out.flush();
    }
    return ExitStatus.DONE;
  }

  private int checkedPatches() {
    if (patches < 1 || patches > JobSet.MOST_PATCHES) {
      throw new ParameterException(
          spec.commandLine(),
          "--patches: expected 1 to " + JobSet.MOST_PATCHES + ", found " + patches);
    }
    return patches;
  }

  private Optional<Edge> edge() {
    String word = edge.toLowerCase(Locale.ROOT);
    if (word.equals("auto")) {
      return Optional.empty();
    }
    for (Edge one : Edge.values()) {
      if (one.word().equals(word)) {
        return Optional.of(one);
      }
    }
    throw new ParameterException(
        spec.commandLine(),
        "--edge: expected auto, top, right, bottom or left, found \"" + edge + "\"");
  }

  private Instant time() {
    if (time == null) {
      return Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }
    try {
      return Instant.parse(time);
    } catch (DateTimeParseException e) {
      throw new ParameterException(
          spec.commandLine(),
          "--time: expected a time such as 2026-11-25T10:03:00Z, found \"" + time + "\"",
          e);
    }
  }
}
