package selvage.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MeasurementReader;
import selvage.measurement.StripChoice;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSet;
import selvage.score.ToleranceSets;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Scores measurements of a stamped proof.
 *
 * @param choice which strip, and whether patches may be missing
 * @param tolerance the name or file of a tolerance set
 * @param judgePredicted whether patches with predicted aims count for pass or fail
 */
public record ScoreProof(StripChoice choice, String tolerance, boolean judgePredicted) {
  /** The usual: the default tolerance set, every patch measured, predicted aims not judged. */
  public static final ScoreProof USUAL =
      new ScoreProof(StripChoice.ANY, ToleranceSets.BUILT_IN.get(0), false);

  public ScoreProof {
    Objects.requireNonNull(choice, "choice");
    Objects.requireNonNull(tolerance, "tolerance");
  }

  /**
   * Scores.
   *
   * @param strips the strips file that stamping wrote
   * @param measured measurement files, at least one
   * @return a score for each table of readings, in the order of the files
   * @throws InputException where a file can't be used or readings and patches can't be matched
   */
  public List<ProofScore> run(Path strips, List<Path> measured) throws InputException {
    StripsFile file = StripsJson.read(strips);
    ToleranceSet limits = ToleranceSets.resolve(tolerance);
    Scoring scoring = new Scoring(limits, judgePredicted);
    List<ProofScore> scores = new ArrayList<>();
    for (Path path : measured) {
      for (MatchedStrip matched :
          choice.match(strips.toString(), file, MeasurementReader.read(path))) {
        scores.add(scoring.score(matched));
      }
    }
    return scores;
  }
}
