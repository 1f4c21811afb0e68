package selvage.score;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import selvage.color.AimSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.measurement.Measurement;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

/**
 * Holds measured strips against a tolerance set.
 *
 * @param tolerance the limits
 * @param judgePredicted whether patches with predicted aims count for pass or fail
 * @param uncertainty of the readings, for the guard band
 */
public record Scoring(ToleranceSet tolerance, boolean judgePredicted, Uncertainty uncertainty) {
  /** Below this mean ΔE*ab a "measurement" is rather the aim file itself. */
  private static final double TOO_GOOD = 0.005;

  public Scoring {
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(uncertainty, "uncertainty");
  }

  /** With readings taken for exact. */
  public Scoring(ToleranceSet tolerance, boolean judgePredicted) {
    this(tolerance, judgePredicted, Uncertainty.NONE);
  }

  /**
   * Scores a strip.
   *
   * @throws InputException where no patch has a reading
   */
  public ProofScore score(MatchedStrip matched) throws InputException {
    List<ScoredPatch> patches = new ArrayList<>();
    for (PatchReading reading : matched.readings()) {
      patches.add(scored(reading.patch(), reading.reading().lab()));
    }
    if (patches.isEmpty()) {
      throw InputException.of(
          matched.measurement().source(), "expected readings of patches, found none to score");
    }
    SpotTones tones = new SpotTones(patches);
    patches = tones.addedTo(patches);
    List<Finding> findings = new ArrayList<>(matched.measurement().findings());
    findings.addAll(matched.findings());
    List<ScoredPatch> counted = tones.addedTo(EqualPatches.once(patches, this::scored, findings));
    List<Check> checks = checks(counted, findings);
    List<SetScore> sets = new ArrayList<>();
    Verdict verdict = Verdict.PASS;
    for (PatchSet set : PatchSet.values()) {
      List<ScoredPatch> ofSet = ofSet(counted, set);
      if (!ofSet.isEmpty()) {
        SetScore score = setScore(set, ofSet, checks, findings);
        sets.add(score);
        verdict = verdict.and(score.verdict());
      }
    }
    findPredicted(patches, findings);
    findAimFile(matched.measurement(), patches, findings);
    return new ProofScore(
        matched.strip().stripId(),
        matched.strip().page(),
        matched.measurement().source(),
        matched.measurement().simulated(),
        tolerance,
        notes(matched.measurement()),
        verdict,
        sets,
        checks,
        patches,
        matched.alignment(),
        matched.repeatability(),
        Optional.empty(),
        findings);
  }

  private ScoredPatch scored(Patch patch, Lab lab) {
    Lab aim = patch.aim().lab();
    return new ScoredPatch(
        patch,
        lab,
        ColorDifference.de00(aim, lab),
        ColorDifference.de76(aim, lab),
        ColorDifference.dCh(aim, lab),
        ColorDifference.dH(aim, lab),
        ColorDifference.dL(aim, lab),
        judgePredicted || patch.aim().source() != AimSource.PREDICTED,
        Optional.empty());
  }

  private static List<ScoredPatch> ofSet(List<ScoredPatch> patches, PatchSet set) {
    return patches.stream().filter(patch -> patch.patch().set() == set).toList();
  }

  private List<Check> checks(List<ScoredPatch> patches, List<Finding> findings) {
    List<Check> checks = new ArrayList<>();
    List<String> without = new ArrayList<>();
    for (Limit limit : tolerance.limits()) {
      List<ScoredPatch> chosen = chosen(patches, limit);
      if (chosen.isEmpty() || (limit.statistic().byArea() && !hasWeight(chosen))) {
        without.add(limit.name());
        continue;
      }
      if (chosen.size() < limit.least()) {
        findings.add(
            Finding.warning(
                "few-patches",
                limit.name()
                    + " is meant for at least "
                    + limit.least()
                    + " patches, found "
                    + chosen.size()));
      }
      double value = statistic(limit.statistic(), limit.metric(), chosen);
      double band =
          Math.max(
              limit.guardBand(),
              uncertainty.expanded(limit.statistic(), limit.metric(), chosen, value));
      checks.add(new Check(limit, chosen.size(), value, band, limit.judge(value, band)));
    }
    if (!without.isEmpty()) {
      findings.add(
          Finding.note(
              "checks-not-made",
              "no patch to judge by, so these checks were not made: "
                  + String.join(", ", without)));
    }
    return checks;
  }

  private static List<ScoredPatch> chosen(List<ScoredPatch> patches, Limit limit) {
    List<ScoredPatch> chosen = new ArrayList<>();
    for (ScoredPatch patch : patches) {
      if (limit.takes(patch)) {
        chosen.add(patch);
      }
    }
    return chosen;
  }

  private static boolean hasWeight(List<ScoredPatch> patches) {
    return patches.stream().anyMatch(patch -> patch.patch().representsPercent() > 0);
  }

  private static double statistic(Statistic statistic, Metric metric, List<ScoredPatch> patches) {
    double[] values = new double[patches.size()];
    double[] weights = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      ScoredPatch patch = patches.get(i);
      values[i] = metric.of(patch);
      weights[i] = patch.patch().representsPercent();
    }
    return statistic.of(values, weights);
  }

  private static SetScore setScore(
      PatchSet set, List<ScoredPatch> patches, List<Check> checks, List<Finding> findings) {
    Verdict verdict = Verdict.PASS;
    boolean judged = false;
    for (Check check : checks) {
      if (check.limit().set() == set) {
        verdict = verdict.and(check.verdict());
        judged = true;
      }
    }
    if (!judged) {
      verdict = Verdict.UNDECIDED;
      findings.add(
          Finding.warning(
              "set-not-judged",
              "no check of the tolerance set could be made of the " + set.word() + " patches"));
    }
    boolean weighed = set == PatchSet.JOB && hasWeight(patches);
    return new SetScore(
        set,
        patches.size(),
        (int) patches.stream().filter(ScoredPatch::judged).count(),
        statistic(Statistic.MEAN, Metric.DE00, patches),
        statistic(Statistic.P95, Metric.DE00, patches),
        statistic(Statistic.MAX, Metric.DE00, patches),
        weighed
            ? OptionalDouble.of(statistic(Statistic.AREA_MEAN, Metric.DE00, patches))
            : OptionalDouble.empty(),
        weighed
            ? OptionalDouble.of(statistic(Statistic.AREA_P95, Metric.DE00, patches))
            : OptionalDouble.empty(),
        verdict);
  }

  private void findPredicted(List<ScoredPatch> patches, List<Finding> findings) {
    int predicted = 0;
    double share = 0;
    for (ScoredPatch patch : patches) {
      if (patch.patch().aim().source() == AimSource.PREDICTED) {
        predicted++;
        share += patch.patch().representsPercent();
      }
    }
    if (predicted == 0) {
      return;
    }
    String counted =
        predicted
            + " of "
            + patches.size()
            + " patches, which stand for "
            + Math.round(share)
            + " % of the inked area, have predicted aims";
    findings.add(
        judgePredicted
            ? Finding.warning(
                "predicted-aims-judged",
                counted + "; they count for pass or fail, as was asked for")
            : Finding.warning(
                "predicted-aims-not-judged",
                counted + "; they are listed but do not count for pass or fail"));
  }

  private static void findAimFile(
      Measurement measurement, List<ScoredPatch> patches, List<Finding> findings) {
    double mean = statistic(Statistic.MEAN, Metric.DE76, patches);
    if (mean < TOO_GOOD && !measurement.simulated()) {
      findings.add(
          Finding.warning(
              "readings-equal-aims",
              measurement.source()
                  + ": the readings are the aim values; check that this is a measurement and not"
                  + " the strip's own file"));
    }
  }

  private List<String> notes(Measurement measurement) {
    List<String> notes = new ArrayList<>();
    Set<Metric> metrics = EnumSet.of(Metric.DE00, Metric.DE76, Metric.DCH, Metric.DH);
    tolerance.limits().forEach(limit -> metrics.add(limit.metric()));
    metrics.forEach(metric -> notes.add(metric.note()));
    notes.add(
        "95th percentile: the smallest value that at least 95 % of the patches, or of the weight,"
            + " do not exceed");
    notes.add(measurement.labMethod());
    if (uncertainty.repeatabilityDe76() > 0) {
      notes.add(
          String.format(
              Locale.ROOT,
              "guard band: twice the standard uncertainty of each check's value, from a"
                  + " repeatability of ΔE*ab %.2f (root mean square), each reading the mean of %d"
                  + " (JCGM 106)",
              uncertainty.repeatabilityDe76(),
              uncertainty.averaged()));
    }
    notes.add("measured: " + measurement.condition().describe());
    return notes;
  }
}
