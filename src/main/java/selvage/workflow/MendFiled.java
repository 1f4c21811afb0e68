package selvage.workflow;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.report.FiledScore;
import selvage.score.Diagnosing;
import selvage.score.Mender;
import selvage.score.Mending;
import selvage.score.Scoring;
import selvage.score.ToleranceSet;
import selvage.score.ToleranceSets;
import selvage.score.Uncertainty;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Finds what would mend a print of which the score was filed: from the readings that stand in it,
 * rounded to 0.0001, and the strips file.
 *
 * @param tolerance the name or file of the tolerance set that the score was held against, where it
 *     is known; else it is looked for by the name in the score
 * @param condition the name or file of the reference printing condition, where the strips file does
 *     not tell enough
 */
public record MendFiled(Optional<String> tolerance, Optional<String> condition) {
  public MendFiled {
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(condition, "condition");
  }

  /**
   * Finds it.
   *
   * @param strips where the strips file lies or lay, for messages and to find the proof beside it
   * @param stripsJson its text
   * @throws InputException where the score is of other strips, or the tolerance set or the printing
   *     condition is not to be had
   */
  public Mending run(Path strips, String stripsJson, FiledScore score) throws InputException {
    StripsFile file =
        StripsJson.read(strips.toString(), stripsJson.getBytes(StandardCharsets.UTF_8));
    List<MatchedStrip> matched = new ArrayList<>();
    for (FiledScore.StripResult result : score.strips()) {
      matched.add(matched(strips, file, result));
    }
    FiledScore.StripResult first = score.strips().get(0);
    Diagnosing diagnosing =
        new Diagnosing(ProofCondition.of(strips, file, condition).condition(), file.strips());
    Scoring scoring = new Scoring(limits(first.tolerance()), false, uncertainty(first));
    return new Mender(diagnosing, scoring, Mender.INK_LIMIT_PERCENT).mend(matched);
  }

  private ToleranceSet limits(String name) throws InputException {
    if (tolerance.isPresent()) {
      ToleranceSet limits = ToleranceSets.resolve(tolerance.get());
      if (limits.name().equals(name)) {
        return limits;
      }
    }
    return ToleranceSets.resolve(name);
  }

  private static Uncertainty uncertainty(FiledScore.StripResult result) {
    return result.repeatability().isPresent()
        ? new Uncertainty(Math.min(20, result.repeatability().get().deviationDe76()), 1)
        : Uncertainty.NONE;
  }

  private static MatchedStrip matched(Path strips, StripsFile file, FiledScore.StripResult result)
      throws InputException {
    Strip strip =
        file.strips().stream()
            .filter(one -> one.stripId().equals(result.stripId()))
            .findFirst()
            .orElse(null);
    if (strip == null) {
      throw InputException.of(
          strips.toString(),
          "expected the strip " + result.stripId() + " that was scored, found none of that id");
    }
    Map<String, Reading> bySetAndId = new HashMap<>();
    List<Reading> readings = new ArrayList<>();
    for (FiledScore.PatchResult patch : result.patches()) {
      Reading reading = new Reading(patch.id(), "", Map.of(), patch.lab(), readings.size() + 1);
      readings.add(reading);
      bySetAndId.put(key(patch.set(), patch.id()), reading);
    }
    List<MatchedStrip.PatchReading> pairs = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      Reading reading = bySetAndId.get(key(patch.set(), patch.id()));
      if (reading != null) {
        pairs.add(new MatchedStrip.PatchReading(patch, reading));
      }
    }
    if (pairs.isEmpty()) {
      throw InputException.of(
          strips.toString(), "none of the patches that were scored is in strip " + strip.stripId());
    }
    Measurement measurement =
        new Measurement(
            result.measurement(),
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            result.simulated(),
            readings,
            List.of());
    return new MatchedStrip(strip, measurement, result.alignment(), pairs, List.of());
  }

  private static String key(PatchSet set, String id) {
    return set.word() + " " + id;
  }
}
