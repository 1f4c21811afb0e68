package selvage.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import selvage.color.ConditionChoice;
import selvage.color.ReferenceConditions;
import selvage.finding.InputException;
import selvage.separation.ContentLimits;
import selvage.separation.OutputIntent;
import selvage.separation.PdfJob;
import selvage.strip.StripsFile;

/** Finds the reference printing condition that a proof was stamped for. */
final class ProofCondition {
  private ProofCondition() {}

  /**
   * The condition of a proof.
   *
   * @param strips the strips file, for messages and to find the proof beside it
   * @param named a name or file that the user gives; it comes before what the strips file says
   * @throws InputException where it is not to be had
   */
  static ConditionChoice of(Path strips, StripsFile file, Optional<String> named)
      throws InputException {
    if (named.isPresent()) {
      return ReferenceConditions.resolve(named.get());
    }
    return switch (file.conditionSource()) {
      case "built-in" -> ReferenceConditions.resolve(file.conditionName());
      case "output-intent" -> outputIntent(strips, file);
      default ->
          throw InputException.of(
              strips.toString(),
              "the printing condition "
                  + file.conditionName()
                  + " came from a file; name it with --condition");
    };
  }

  /** The output intent of the proof that lies beside the strips file. */
  private static ConditionChoice outputIntent(Path strips, StripsFile file) throws InputException {
    Path proof = strips.resolveSibling(Path.of(file.proof()).getFileName());
    if (!Files.isRegularFile(proof)) {
      throw InputException.of(
          strips.toString(),
          "the printing condition "
              + file.conditionName()
              + " came from the job's output intent; expected the proof "
              + proof
              + " to read it from, found none; put it there, or name the condition with"
              + " --condition");
    }
    try (PdfJob job = PdfJob.open(proof, ContentLimits.USUAL)) {
      OutputIntent intent = job.outputIntent().orElse(null);
      if (intent == null) {
        throw InputException.of(
            proof.toString(),
            "expected an output intent for the printing condition "
                + file.conditionName()
                + ", found none; name the condition with --condition");
      }
      return ReferenceConditions.forOutputIntent(
          intent.identifier(), intent.info(), intent.profile());
    } catch (IOException e) {
      throw InputException.of(proof.toString(), "can't be read: " + e.getMessage(), e);
    }
  }
}
