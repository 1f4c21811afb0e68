package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import selvage.finding.InputException;
import selvage.measurement.StripChoice;
import selvage.report.ScoreJson;
import selvage.report.ScoreText;
import selvage.score.ProofScore;
import selvage.workflow.ScoreProof;

/** {@code score STRIPS.json MEASURED...}. */
@Command(
    name = "score",
    description =
        "Matches measurements to the patches of a stamped proof, holds them against a tolerance"
            + " set and gives the verdict.",
    footer = {
      "",
      "Exit status: 0 pass, 3 input that can't be used, 4 out of tolerance, 5 too",
      "close to a limit to decide.",
      "",
      "Results support, and do not replace, agreed standards, the instrument maker's",
      "instructions and the judgement of those who sign the proof."
    })
final class ScoreCommand implements Callable<Integer> {
  @Spec CommandSpec spec;

  @Parameters(
      index = "0",
      paramLabel = "STRIPS.json",
      description = "What stamp wrote beside the proof.")
  Path strips;

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "MEASURED",
      description = "Measurement files: CGATS text with Lab or XYZ, D50, 2 degree observer.")
  List<Path> measured;

  @Option(
      names = "--tolerance",
      paramLabel = "NAME|FILE",
      defaultValue = "iso-12647-7-2016",
      description =
          "Tolerance set: iso-12647-7-2016, iso-12647-7-2007-de76, or a file of that form."
              + " Default: ${DEFAULT-VALUE}.")
  String tolerance;

  @Option(
      names = "--strip",
      paramLabel = "ID",
      description = "The strip that was measured. Default: the measurement finds its strip.")
  String strip;

  @Option(
      names = "--page",
      paramLabel = "N",
      description = "The page whose strip was measured, from 1. Default: as --strip.")
  Integer page;

  @Option(
      names = "--allow-missing",
      description = "Score although patches were not measured; they do not count.")
  boolean allowMissing;

  @Option(
      names = "--judge-predicted",
      description =
          "Let patches whose aims are predicted count for pass or fail. Default: listed only.")
  boolean judgePredicted;

  @Mixin OutputOptions output = new OutputOptions();

  @Override
  public Integer call() throws InputException, IOException {
    StripChoice choice =
        new StripChoice(
            Optional.ofNullable(strip),
            page == null ? OptionalInt.empty() : OptionalInt.of(page),
            allowMissing);
    List<ProofScore> scores =
        new ScoreProof(choice, tolerance, judgePredicted).run(strips, measured);
    PrintWriter out = spec.commandLine().getOut();
    output.writeJson(out, json -> ScoreJson.write(scores, json));
    if (!output.quiet && !output.isJsonOnStandardOutput()) {
      out.print(ScoreText.of(scores));
      out.flush();
    }
    return switch (ScoreText.verdict(scores)) {
      case PASS -> ExitStatus.DONE;
      case FAIL -> ExitStatus.FAIL;
      case UNDECIDED -> ExitStatus.UNDECIDED;
    };
  }
}
