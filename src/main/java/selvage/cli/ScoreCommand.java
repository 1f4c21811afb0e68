package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.ledger.ScoreRecord;
import selvage.report.ScoreJson;
import selvage.report.ScoreText;
import selvage.score.ProofScore;
import selvage.workflow.CorrectionFile;
import selvage.workflow.FileScore;
import selvage.workflow.ScoreProof;
import selvage.workflow.WriteReports;

/** {@code score STRIPS.json MEASURED...}. */
final class ScoreCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this,
          "Matches measurements to the patches of a stamped proof, holds them against a tolerance"
              + " set and gives the verdict.");

  final Value<Path> strips =
      declaration.parameter(
          0, Path.class, "STRIPS.json", null, "What stamp wrote beside the proof.");

  final Value<List<Path>> measured =
      declaration.parameters(
          1,
          Path.class,
          "MEASURED",
          "Measurement files: CGATS text or CxF3 with Lab, XYZ (D50, 2 degree observer) or spectra."
              + " Several of one strip are joined and averaged.");

  final Value<String> tolerance =
      declaration.option(
          String.class,
          "NAME|FILE",
          "iso-12647-7-2016",
          "Tolerance set: iso-12647-7-2016, iso-12647-7-2007-de76, or a file of that form."
              + " Default: ${DEFAULT-VALUE}.",
          "--tolerance");

  private final StripOptions stripOptions =
      new StripOptions(
          declaration,
          "The strip that was measured. Default: the measurement finds its strip.",
          "The page whose strip was measured, from 1. Default: as --strip.");

  final Value<Boolean> allowMissing =
      declaration.flag(
          "Score although patches were not measured; they do not count.", "--allow-missing");

  final Value<Boolean> judgePredicted =
      declaration.flag(
          "Let patches whose aims are predicted count for pass or fail. Default: listed only.",
          "--judge-predicted");

  final Value<Double> repeatability =
      declaration.option(
          Double.class,
          "DE",
          null,
          "Repeatability of the instrument: root mean square CIELAB 1976 difference of a reading"
              + " from the mean of many, 0 to 20. Values whose expanded uncertainty reaches over a"
              + " limit are undecided; 0 is the plain rule. Where repeated readings spread more,"
              + " that counts. Default: that spread alone.",
          "--repeatability");

  final Value<Boolean> diagnose =
      declaration.flag(
          "Say of a proof that passes, too, what happened to it: which ink's tone value or density,"
              + " the paper or a spot ink is off, how far, and how much of the error that explains."
              + " Default: only of one that does not pass.",
          "--diagnose");

  final Value<String> condition =
      declaration.option(
          String.class,
          "NAME|FILE",
          null,
          "Reference printing condition, for the diagnosis. Default: the one that the strips file"
              + " names.",
          "--condition");

  final Value<Path> correction =
      declaration.option(
          Path.class,
          "FILE",
          null,
          "Write what would mend the print (CGATS text): a curve an ink, and corrected mixtures for"
              + " spot and job patches out of tolerance; and predict what a reprint would score.",
          "--correction");

  final Value<Double> inkLimit =
      declaration.option(
          Double.class,
          "PERCENT",
          "310",
          "Most total ink of corrected mixtures, 100 to 400, where the job's own have less. Default:"
              + " ${DEFAULT-VALUE}.",
          "--ink-limit");

  final Value<List<Path>> reports =
      declaration.options(
          Path.class,
          "FILE.pdf|FILE.html",
          "Write a report for the customer and the file, PDF or HTML by the name's ending; may be"
              + " given several times.",
          "--report");

  final Value<List<Path>> stickers =
      declaration.options(
          Path.class,
          "FILE.pdf",
          "Write a small label, 90 x 50 mm, to stick on the proof; one page a strip.",
          "--sticker");

  final Value<String> ledger =
      declaration.option(
          String.class,
          "FILE|URL",
          null,
          "File the score and its strips in a ledger: a file (SQLite) or"
              + " jdbc:postgresql://HOST/DATABASE?user=NAME.",
          "--ledger");

  private final TimeOption time =
      new TimeOption(declaration, "on reports and labels, and in the ledger", "");

  final OutputOptions output = new OutputOptions(declaration);

  ScoreCommand() {
    declaration.footer(
        "",
        "Exit status: 0 pass, 3 input that can't be used, 4 out of tolerance, 5 too",
        "close to a limit to decide.",
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    WriteReports writing = writing();
    ScoreProof how =
        new ScoreProof(
            stripOptions.choice(allowMissing.get()),
            tolerance.get(),
            judgePredicted.get(),
            repeatability.get() == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(within("--repeatability", repeatability.get(), 0, 20)),
            diagnose.get(),
            Optional.ofNullable(condition.get()));
    ScoreProof.Outcome outcome =
        how.run(
            strips.get(),
            measured.get(),
            correction.get() == null
                ? OptionalDouble.empty()
                : OptionalDouble.of(within("--ink-limit", inkLimit.get(), 100, 400)));
    List<ProofScore> scores = outcome.scores();
    if (outcome.mending().isPresent()) {
      CorrectionFile.write(correction.get(), outcome.mending().get(), strips.get(), measured.get());
    }
    if (!reports.get().isEmpty() || !stickers.get().isEmpty()) {
      writing.run(strips.get(), measured.get(), outcome);
    }
    Optional<ScoreRecord> filed =
        ledger.get() == null
            ? Optional.empty()
            : Optional.of(
                new FileScore(ledger.get(), time.get())
                    .run(strips.get(), measured.get(), how, outcome));
    PrintWriter out = declaration.out();
    output.writeJson(out, json -> ScoreJson.write(scores, outcome.mending(), filed, json));
    if (!output.quiet.get() && !output.isJsonOnStandardOutput()) {
      out.print(ScoreText.of(scores, outcome.mending()));
      out.flush();
    }
    return switch (ScoreText.verdict(scores)) {
      case PASS -> ExitStatus.DONE;
      case FAIL -> ExitStatus.FAIL;
      case UNDECIDED -> ExitStatus.UNDECIDED;
    };
  }

  private double within(String option, double given, double least, double most) {
    if (!(given >= least && given <= most)) {
      throw declaration.misuse(option + ": expected " + least + " to " + most + ", found " + given);
    }
    return given;
  }

  private WriteReports writing() {
    for (Path report : reports.get()) {
      if (!WriteReports.isReport(report)) {
        throw declaration.misuse(
            "--report: expected a name that ends in .pdf or .html, found \"" + report + "\"");
      }
    }
    return new WriteReports(reports.get(), stickers.get(), time.get());
  }
}
