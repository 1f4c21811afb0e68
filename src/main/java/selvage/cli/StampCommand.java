package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.report.StampText;
import selvage.sheet.Edge;
import selvage.strip.JobSet;
import selvage.strip.StripLabel;
import selvage.survey.JobSurvey;
import selvage.workflow.StampJob;
import selvage.workflow.StampOptions;
import selvage.workflow.SurveyJob;

/** {@code stamp JOB -o PROOF.pdf}. */
final class StampCommand implements Callable<Integer> {
  /** What one strip stands for. */
  enum Scope {
    PAGE,
    JOB
  }

  private final Declaration declaration =
      new Declaration(
          this,
          "Chooses patches of the job's own colours, lays them out beside a standard strip and puts"
              + " both on the sheet, outside the bleed.");

  final JobOptions job = new JobOptions(declaration);

  final Value<Path> proof =
      declaration.required(
          Path.class, "PROOF.pdf", "Where the stamped proof goes.", "-o", "--output");

  final Value<String> patches =
      declaration.option(
          String.class,
          "N|auto",
          "24",
          "Job patches a strip, 1 to 200; or auto: as many as each bring 0.5 %% more of the inked"
              + " area within ΔE00 3, at most 96. Default: ${DEFAULT-VALUE}.",
          "--patches");

  final Value<String> standard =
      declaration.option(
          String.class,
          "NAME|FILE",
          "full",
          "Standard strip: full, basic, a CGATS file of CMYK tints in percent, or none (paper"
              + " only). Default: ${DEFAULT-VALUE}.",
          "--standard");

  final Value<String> reader =
      declaration.option(
          String.class,
          "NAME|FILE",
          "handheld-spot",
          "Geometry for the instrument: handheld-spot, handheld-scan, strip-feeder, xy-table, or a"
              + " file of that form. Default: ${DEFAULT-VALUE}.",
          "--reader");

  final Value<String> edge =
      declaration.option(
          String.class,
          "EDGE",
          "auto",
          "Edge of the page as displayed: auto (free space, else where the sheet grows least), top,"
              + " right, bottom or left. Default: ${DEFAULT-VALUE}.",
          "--edge");

  final Value<Scope> per =
      declaration.option(
          Scope.class,
          "SCOPE",
          "page",
          "One strip a page, or one for the whole job on its first page: page or job. Default:"
              + " ${DEFAULT-VALUE}.",
          "--per");

  final Value<Path> separate =
      declaration.option(
          Path.class,
          "FILE.pdf",
          null,
          "Write the strips alone as well, one a page, to be printed by themselves.",
          "--separate");

  final Value<String> evaluatedAs =
      declaration.option(
          String.class,
          "TEXT",
          "",
          "For the label: what the proof is evaluated as. Default: not stated.",
          "--evaluated-as");

  final Value<String> proofingSystem =
      declaration.option(
          String.class,
          "TEXT",
          "",
          "For the label: the proofing system. Default: not stated.",
          "--proofing-system");

  final Value<String> inkSet =
      declaration.option(
          String.class,
          "TEXT",
          "",
          "For the label: the proofing system's inks. Default: not stated.",
          "--ink-set");

  final Value<String> substrate =
      declaration.option(
          String.class,
          "TEXT",
          "",
          "For the label: the proofing substrate. Default: not stated.",
          "--substrate");

  final Value<String> profile =
      declaration.option(
          String.class,
          "TEXT",
          "",
          "For the label: the simulation profile. Default: not stated.",
          "--profile");

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
            checkedPatches(),
            standard.get(),
            reader.get(),
            edge(),
            per.get() == Scope.JOB,
            Optional.ofNullable(separate.get()),
            List.of(
                new StripLabel.Item("Evaluated as", evaluatedAs.get()),
                new StripLabel.Item("Proofing system", proofingSystem.get()),
                new StripLabel.Item("Ink set", inkSet.get()),
                new StripLabel.Item("Substrate", substrate.get()),
                new StripLabel.Item("Simulation profile", profile.get())),
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

  private int checkedPatches() {
    String text = patches.get().strip();
    if (text.equalsIgnoreCase("auto")) {
      return JobSet.AUTO;
    }
    int count = 0;
    try {
      count = Integer.parseInt(text);
    } catch (NumberFormatException e) {
      // Told below.
    }
    if (count < 1 || count > JobSet.MOST_PATCHES) {
      throw declaration.misuse(
          "--patches: expected 1 to " + JobSet.MOST_PATCHES + " or auto, found \"" + text + "\"");
    }
    return count;
  }

  private Optional<Edge> edge() {
    String word = edge.get().toLowerCase(Locale.ROOT);
    if (word.equals("auto")) {
      return Optional.empty();
    }
    for (Edge one : Edge.values()) {
      if (one.word().equals(word)) {
        return Optional.of(one);
      }
    }
    throw declaration.misuse(
        "--edge: expected auto, top, right, bottom or left, found \"" + edge.get() + "\"");
  }
}
