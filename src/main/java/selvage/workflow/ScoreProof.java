package selvage.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MeasurementReader;
import selvage.measurement.StripChoice;
import selvage.score.Diagnosing;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSet;
import selvage.score.ToleranceSets;
import selvage.score.Verdict;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Scores measurements of a stamped proof.
 *
 * @param choice which strip, and whether patches may be missing
 * @param tolerance the name or file of a tolerance set
 * @param judgePredicted whether patches with predicted aims count for pass or fail
 * @param diagnose whether to say what happened to a print that passes, too; of others it is always
 *     said, where the printing condition is to be had
 * @param condition the name or file of the reference printing condition, where the strips file does
 *     not tell enough; only the diagnosis needs it
 */
public record ScoreProof(
    StripChoice choice,
    String tolerance,
    boolean judgePredicted,
    boolean diagnose,
    Optional<String> condition) {
  /** The usual: the default tolerance set, every patch measured, predicted aims not judged. */
  public static final ScoreProof USUAL =
      new ScoreProof(
          StripChoice.ANY, ToleranceSets.BUILT_IN.get(0), false, false, Optional.empty());

  public ScoreProof {
    Objects.requireNonNull(choice, "choice");
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(condition, "condition");
  }

  /**
   * Scores.
   *
   * @param strips the strips file that stamping wrote
   * @param measured measurement files, at least one
   * @return a score for each table of readings, in the order of the files
   * @throws InputException where a file can't be used or readings and patches can't be matched, or
   *     a diagnosis is asked for and the printing condition is not to be had
   */
  public List<ProofScore> run(Path strips, List<Path> measured) throws InputException {
    StripsFile file = StripsJson.read(strips);
    ToleranceSet limits = ToleranceSets.resolve(tolerance);
    Scoring scoring = new Scoring(limits, judgePredicted);
    List<ProofScore> scores = new ArrayList<>();
    Diagnosing diagnosing = null;
    String reason = null;
    for (Path path : measured) {
      for (MatchedStrip matched :
          choice.match(strips.toString(), file, MeasurementReader.read(path))) {
        ProofScore score = scoring.score(matched);
        boolean wanted = diagnose || score.verdict() != Verdict.PASS;
        if (wanted && diagnosing == null && reason == null) {
          try {
            diagnosing =
                new Diagnosing(
                    ProofCondition.of(strips, file, condition).condition(), file.strips());
          } catch (InputException e) {
            if (diagnose || condition.isPresent()) {
              throw e;
            }
            reason = e.getMessage();
          }
        }
        if (wanted && diagnosing != null) {
          score = score.with(diagnosing.diagnose(matched));
        } else if (wanted) {
          score = score.with(Finding.note("not-diagnosed", "no diagnosis: " + reason));
        }
        scores.add(score);
      }
    }
    return scores;
  }
}
