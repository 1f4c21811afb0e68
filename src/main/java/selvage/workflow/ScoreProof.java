package selvage.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementReader;
import selvage.measurement.Repeatability;
import selvage.measurement.StripChoice;
import selvage.score.Diagnosing;
import selvage.score.Mender;
import selvage.score.Mending;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSet;
import selvage.score.ToleranceSets;
import selvage.score.Uncertainty;
import selvage.score.Verdict;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Scores measurements of a stamped proof.
 *
 * @param choice which strip, and whether patches may be missing
 * @param tolerance the name or file of a tolerance set
 * @param judgePredicted whether patches with predicted aims count for pass or fail
 * @param repeatabilityDe76 of the instrument: root mean square ΔE*ab of a reading about the mean of
 *     many, 0 to 20; where repeated readings spread more, that counts. 0 gives the plain rule, and
 *     empty takes the spread alone
 * @param diagnose whether to say what happened to a print that passes, too; of others it is always
 *     said, where the printing condition is to be had
 * @param condition the name or file of the reference printing condition, where the strips file does
 *     not tell enough; only the diagnosis needs it
 */
public record ScoreProof(
    StripChoice choice,
    String tolerance,
    boolean judgePredicted,
    OptionalDouble repeatabilityDe76,
    boolean diagnose,
    Optional<String> condition) {
  private static final double MOST_DE76 = 20;

  /** The usual: the default tolerance set, every patch measured, predicted aims not judged. */
  public static final ScoreProof USUAL =
      new ScoreProof(
          StripChoice.ANY,
          ToleranceSets.BUILT_IN.get(0),
          false,
          OptionalDouble.empty(),
          false,
          Optional.empty());

  public ScoreProof {
    Objects.requireNonNull(choice, "choice");
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(repeatabilityDe76, "repeatabilityDe76");
    Objects.requireNonNull(condition, "condition");
  }

  /**
   * Scores, and what would mend the print.
   *
   * @param scores one for each table of readings, in the order of the files
   * @param mending where it was asked for
   */
  public record Outcome(List<ProofScore> scores, Optional<Mending> mending) {
    public Outcome {
      scores = List.copyOf(scores);
      Objects.requireNonNull(mending, "mending");
    }
  }

  /**
   * Scores.
   *
   * @param strips the strips file that stamping wrote
   * @param measured measurement files, at least one
   * @return a score for each strip that was measured; several measurements of one are averaged
   * @throws InputException where a file can't be used or readings and patches can't be matched, or
   *     a diagnosis is asked for and the printing condition is not to be had
   */
  public List<ProofScore> run(Path strips, List<Path> measured) throws InputException {
    return run(strips, measured, OptionalDouble.empty()).scores();
  }

  /**
   * Scores, and finds what would mend the print.
   *
   * @param inkLimitPercent the most total ink of corrected mixtures, 100 to 400; empty where
   *     nothing is to be mended
   * @throws InputException as {@link #run(Path, List)}
   */
  public Outcome run(Path strips, List<Path> measured, OptionalDouble inkLimitPercent)
      throws InputException {
    StripsFile file = StripsJson.read(strips);
    ToleranceSet limits = ToleranceSets.resolve(tolerance);
    List<Measurement> measurements = new ArrayList<>();
    for (Path path : measured) {
      measurements.addAll(MeasurementReader.read(path));
    }
    List<MatchedStrip> matched = choice.match(strips.toString(), file, measurements);
    List<ProofScore> scores = new ArrayList<>();
    boolean wanted = diagnose || inkLimitPercent.isPresent();
    boolean passed = true;
    for (MatchedStrip strip : matched) {
      ProofScore score = new Scoring(limits, judgePredicted, uncertainty(strip)).score(strip);
      scores.add(score);
      passed &= score.verdict() == Verdict.PASS;
    }
    if (passed && !wanted) {
      return new Outcome(scores, Optional.empty());
    }
    Diagnosing diagnosing;
    try {
      diagnosing =
          new Diagnosing(ProofCondition.of(strips, file, condition).condition(), file.strips());
    } catch (InputException e) {
      if (wanted || condition.isPresent()) {
        throw e;
      }
      Finding why = Finding.note("not-diagnosed", "no diagnosis: " + e.getMessage());
      return new Outcome(
          scores.stream()
              .map(score -> score.verdict() == Verdict.PASS ? score : score.with(why))
              .toList(),
          Optional.empty());
    }
    for (int i = 0; i < scores.size(); i++) {
      if (wanted || scores.get(i).verdict() != Verdict.PASS) {
        scores.set(i, scores.get(i).with(diagnosing.diagnose(matched.get(i))));
      }
    }
    return new Outcome(
        scores,
        inkLimitPercent.isPresent()
            ? Optional.of(
                new Mender(
                        diagnosing,
                        new Scoring(limits, judgePredicted, uncertainty(matched.get(0))),
                        inkLimitPercent.getAsDouble())
                    .mend(matched))
            : Optional.empty());
  }

  private Uncertainty uncertainty(MatchedStrip strip) {
    double stated = repeatabilityDe76.orElse(0);
    boolean isPlain = repeatabilityDe76.isPresent() && stated == 0;
    if (isPlain || strip.repeatability().isEmpty()) {
      return new Uncertainty(stated, 1);
    }
    Repeatability spread = strip.repeatability().get();
    long printed = strip.readings().stream().map(one -> one.patch().box()).distinct().count();
    boolean isAll = spread.patches() == printed;
    return new Uncertainty(
        Math.min(MOST_DE76, Math.max(stated, spread.deviationDe76())),
        isAll ? spread.readings() / spread.patches() : 1);
  }
}
