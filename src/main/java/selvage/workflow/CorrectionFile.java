package selvage.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import selvage.color.CorrectionText;
import selvage.finding.InputException;
import selvage.score.Mending;

/** Writes what would mend a print. */
public final class CorrectionFile {
  private CorrectionFile() {}

  /**
   * Writes a correction.
   *
   * @param target where it goes
   * @param strips the strips file, which it must not overwrite
   * @param measured the measurements, which it must not overwrite
   * @throws InputException where it would overwrite one of them or can't be written
   */
  public static void write(Path target, Mending mending, Path strips, List<Path> measured)
      throws InputException, IOException {
    List<Path> inputs = new ArrayList<>(measured);
    inputs.add(strips);
    for (Path input : inputs) {
      if (Files.exists(target) && Files.isSameFile(input, target)) {
        throw InputException.of(
            target.toString(), "would overwrite " + input + "; give the correction another name");
      }
    }
    try (StagedFiles files = new StagedFiles()) {
      files.add(target, text(mending));
      files.publish();
    }
  }

  /** The correction as it stands in its file, CGATS text. */
  public static String text(Mending mending) {
    List<String> comments = new ArrayList<>();
    comments.add(
        "Fitted to one print and predicted, not proven: print the strip again through it and score"
            + " that.");
    if (mending.predicted().stream().anyMatch(score -> score.simulated())) {
      comments.add("SIMULATED: made from an invented measurement.");
    }
    return CorrectionText.write(mending.correction(), comments);
  }
}
