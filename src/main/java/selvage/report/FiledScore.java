package selvage.report;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Alignment;
import selvage.measurement.Repeatability;
import selvage.score.Metric;
import selvage.score.SetScore;
import selvage.score.Statistic;
import selvage.score.Verdict;
import selvage.strip.JsonFields;
import selvage.strip.PatchSet;

/**
 * A score as it was filed: what {@link ScoreJson} wrote, read again for those who show it. Nothing
 * is judged anew.
 *
 * @param verdict on the whole
 * @param strips at least one
 * @param mending what would mend the print, in words; empty where nobody asked
 */
public record FiledScore(Verdict verdict, List<StripResult> strips, List<String> mending) {
  /**
   * What a check came to.
   *
   * @param name as the tolerance set has it
   * @param set whose patches it judges
   * @param metric of the value
   * @param statistic how several patches become the value
   * @param patches that were judged by it
   * @param value in the metric's unit
   * @param limit the greatest that passes
   * @param guardBand half the width of the zone about the limit where nothing is decided
   * @param verdict on the value
   * @param source where the limit comes from
   * @param mark how the limit is known
   */
  public record CheckResult(
      String name,
      PatchSet set,
      Metric metric,
      Statistic statistic,
      int patches,
      double value,
      double limit,
      double guardBand,
      Verdict verdict,
      String source,
      String mark) {}

  /**
   * What a patch came to.
   *
   * @param id of the patch in its set
   * @param set job or standard
   * @param aim what it ought to measure
   * @param aimSource where the aim comes from
   * @param lab what it measured
   * @param de00 CIEDE2000
   * @param de76 ΔE*ab
   * @param dch ΔCh
   * @param dh ΔH*ab, signed
   * @param dl ΔL*, signed
   * @param sctvPercent tone value read; of spot tints only
   * @param sctvAimPercent tone value of the aim
   * @param judged whether it counts for pass or fail
   * @param limitMetric of the tightest limit on it by itself
   * @param limit that limit; empty where it has none
   * @param verdict on the patch by itself
   */
  public record PatchResult(
      String id,
      PatchSet set,
      Lab aim,
      AimSource aimSource,
      Lab lab,
      double de00,
      double de76,
      double dch,
      double dh,
      double dl,
      OptionalDouble sctvPercent,
      OptionalDouble sctvAimPercent,
      boolean judged,
      Optional<Metric> limitMetric,
      OptionalDouble limit,
      Verdict verdict) {
    /** ΔC*ab, reading less aim. */
    public double dc() {
      return lab.chroma() - aim.chroma();
    }

    PlottedPatch plotted(Metric metric) {
      return new PlottedPatch(
          id, set, aim, lab, judged, metric == Metric.DE76 ? de76 : de00, limit, verdict);
    }
  }

  /**
   * What happened to the print.
   *
   * @param patches that the diagnosis rests on
   * @param words a sentence each
   */
  public record Diagnosed(int patches, List<String> words) {
    public Diagnosed {
      words = List.copyOf(words);
    }
  }

  /**
   * What a strip came to.
   *
   * @param stripId the strip
   * @param page of the job, counted from 1
   * @param measurement the measurement's file
   * @param simulated whether nobody measured a print
   * @param tolerance the tolerance set's name
   * @param toleranceSource where its figures come from
   * @param notes how the figures were made
   * @param verdict on the strip
   * @param sets the job's first
   * @param checks in the tolerance set's order
   * @param patches in the strip's order
   * @param alignment how readings were matched to patches
   * @param repeatability how repeated readings spread
   * @param diagnosis what happened to the print
   * @param findings doubts
   */
  public record StripResult(
      String stripId,
      int page,
      String measurement,
      boolean simulated,
      String tolerance,
      String toleranceSource,
      List<String> notes,
      Verdict verdict,
      List<SetScore> sets,
      List<CheckResult> checks,
      List<PatchResult> patches,
      Alignment alignment,
      Optional<Repeatability> repeatability,
      Optional<Diagnosed> diagnosis,
      List<Finding> findings) {
    public StripResult {
      Objects.requireNonNull(verdict, "verdict");
      Objects.requireNonNull(alignment, "alignment");
      Objects.requireNonNull(repeatability, "repeatability");
      Objects.requireNonNull(diagnosis, "diagnosis");
      notes = List.copyOf(notes);
      sets = List.copyOf(sets);
      checks = List.copyOf(checks);
      patches = List.copyOf(patches);
      findings = List.copyOf(findings);
    }

    /** The verdict in a sentence, naming what stands against a pass. */
    public String summary() {
      return ScoreWords.summary(
          verdict,
          checks.stream()
              .map(
                  check ->
                      new ScoreWords.Line(
                          ScoreWords.checkName(check.name()),
                          Figures.fixed(
                              check.value(), ScoreWords.digits(check.value(), check.limit())),
                          check.verdict()))
              .toList());
    }

    /** The patches of a set, in their order. */
    public List<PatchResult> patches(PatchSet set) {
      return patches.stream().filter(patch -> patch.set() == set).toList();
    }

    /** What happened to the print, where that was asked. */
    public Optional<ReportSection> diagnosisSection() {
      return diagnosis.map(found -> ScoreWords.diagnosis(found.words(), found.patches()));
    }

    /**
     * How repeated readings spread, where there were any.
     *
     * @param inks the build of a patch in words, by the patch's id
     */
    public Optional<ReportSection> repeatSection(java.util.function.UnaryOperator<String> inks) {
      return repeatability.map(found -> RepeatSection.of(found, inks));
    }
  }

  public FiledScore {
    Objects.requireNonNull(verdict, "verdict");
    strips = List.copyOf(strips);
    mending = List.copyOf(mending);
  }

  /**
   * Reads a score.
   *
   * @param name of the file, for messages
   * @throws InputException where the text is no score
   */
  public static FiledScore parse(String name, String scoreJson) throws InputException {
    JsonNode root;
    try {
      root = new ObjectMapper().readTree(scoreJson);
    } catch (JsonProcessingException e) {
      throw InputException.of(name, "expected a score, found: " + e.getOriginalMessage(), e);
    }
    JsonFields fields = JsonFields.of(name, "score", root);
    List<JsonFields> list = root.has("scores") ? fields.objects("scores") : List.of(fields);
    List<StripResult> strips = new ArrayList<>();
    for (JsonFields one : list) {
      strips.add(FiledScoreReader.strip(one));
    }
    return new FiledScore(
        fields.word("verdict", Verdict.values()),
        strips,
        root.has("mending")
            ? FiledScoreReader.texts(fields.object("mending"), "words")
            : List.of());
  }
}
