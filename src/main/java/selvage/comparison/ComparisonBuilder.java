package selvage.comparison;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import selvage.ink.InkMixture;
import selvage.ledger.Calibration;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreFilter;
import selvage.ledger.ScoredStrip;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * Takes scored strips, the latest first, and compares. Where a strip on a proof was scored several
 * times the last score counts, everywhere.
 */
public final class ComparisonBuilder {
  /** Proofs that make a baseline, unless told otherwise (house rule). */
  public static final int BASELINE_PROOFS = 10;

  private record StripOnProof(String proof, String stripId) {}

  private record ColorKey(PatchSet set, InkMixture mixture) {}

  private static final class ColorSum {
    int readings;
    int limited;
    int over;
    double de00;
    double dl;
    double da;
    double db;
  }

  /** A proof of a source: the strips of one score. */
  private static final class ProofSum {
    private final Instant time;
    private final String proof;
    private int strips;
    private double dl;
    private double da;
    private double db;

    ProofSum(Instant time, String proof) {
      this.time = time;
      this.proof = proof;
    }

    void add(LabMean drift) {
      strips++;
      dl += drift.dl();
      da += drift.da();
      db += drift.db();
    }

    Trend.Point point() {
      return new Trend.Point(
          time, proof, new LabMean(dl / strips, da / strips, db / strips), Optional.empty());
    }
  }

  private final TrendChart chart;
  private final Set<StripOnProof> seen = new HashSet<>();
  private final List<ScoredPair> pairs = new ArrayList<>();
  private final VerdictTable table = new VerdictTable();
  private final Map<ColorKey, ColorSum> colors = new HashMap<>();
  private final Map<ScoredPair.Source, Map<String, ProofSum>> proofs = new TreeMap<>();
  private int withoutBoth;
  private int earlier;

  /**
   * Begins.
   *
   * @param ewma the trend charts' figures
   * @param baselineProofs how many proofs make a baseline, 2 or more
   */
  public ComparisonBuilder(Ewma ewma, int baselineProofs) {
    this.chart = new TrendChart(ewma, baselineProofs);
  }

  /** Compares what a ledger holds. */
  public static Comparison of(Ledger ledger, ScoreFilter filter, Ewma ewma, int baselineProofs) {
    ComparisonBuilder builder = new ComparisonBuilder(ewma, baselineProofs);
    ledger.scoredStrips(filter, builder::add);
    return builder.build(ledger.name(), filter, ledger.calibrations());
  }

  /** Adds a strip; later scores come before earlier ones. */
  public void add(ScoredStrip strip) {
    Optional<ScoredStrip.SetResult> job = strip.set(PatchSet.JOB);
    Optional<ScoredStrip.SetResult> standard = strip.set(PatchSet.STANDARD);
    if (job.isEmpty() || standard.isEmpty()) {
      withoutBoth++;
      return;
    }
    if (!seen.add(new StripOnProof(strip.jobId().orElse(strip.proof()), strip.stripId()))) {
      earlier++;
      return;
    }
    LabMean drift = drift(strip);
    ScoredPair.Source source =
        new ScoredPair.Source(strip.proofingSystem(), strip.substrate(), strip.condition());
    Verdict ofJob = job.get().verdict();
    Verdict ofStandard = standard.get().verdict();
    pairs.add(
        new ScoredPair(
            strip.scoreId(),
            strip.jobId(),
            strip.received(),
            strip.proof(),
            strip.page(),
            strip.stripId(),
            source,
            strip.simulated(),
            ofJob,
            ofStandard,
            job.get().areaMeanDe00(),
            standard.get().meanDe00(),
            drift));
    table.add(ofJob, ofStandard);
    strip.patches().forEach(this::addColor);
    proofs
        .computeIfAbsent(source, key -> new LinkedHashMap<>())
        .computeIfAbsent(strip.scoreId(), key -> new ProofSum(strip.received(), strip.proof()))
        .add(drift);
  }

  private static LabMean drift(ScoredStrip strip) {
    double dl = 0;
    double da = 0;
    double db = 0;
    int count = 0;
    for (ScoredStrip.Reading patch : strip.patches()) {
      if (patch.set() == PatchSet.STANDARD) {
        count++;
        dl += patch.lab().l() - patch.aim().l();
        da += patch.lab().a() - patch.aim().a();
        db += patch.lab().b() - patch.aim().b();
      }
    }
    return count == 0 ? new LabMean(0, 0, 0) : new LabMean(dl / count, da / count, db / count);
  }

  private void addColor(ScoredStrip.Reading patch) {
    if (patch.mixture().isEmpty()) {
      return;
    }
    ColorSum sum =
        colors.computeIfAbsent(
            new ColorKey(patch.set(), patch.mixture().get()), key -> new ColorSum());
    sum.readings++;
    sum.limited += patch.overLimit().isPresent() ? 1 : 0;
    sum.over += patch.overLimit().orElse(false) ? 1 : 0;
    sum.de00 += patch.de00();
    sum.dl += patch.lab().l() - patch.aim().l();
    sum.da += patch.lab().a() - patch.aim().a();
    sum.db += patch.lab().b() - patch.aim().b();
  }

  /**
   * The comparison of all that was added.
   *
   * @param ledger its name
   * @param calibrations of all proofing systems
   */
  public Comparison build(String ledger, ScoreFilter filter, List<Calibration> calibrations) {
    List<ScoredPair> inTime = new ArrayList<>(pairs);
    Collections.reverse(inTime);
    return new Comparison(
        ledger,
        filter,
        new Comparison.Left(withoutBoth, earlier),
        inTime,
        table,
        differences(inTime),
        failingColors(),
        trends(calibrations),
        chart.ewma(),
        chart.baselineProofs());
  }

  private static Optional<Comparison.Differences> differences(List<ScoredPair> pairs) {
    if (pairs.isEmpty()) {
      return Optional.empty();
    }
    double[] job = pairs.stream().mapToDouble(ScoredPair::jobDe00).toArray();
    double[] standard = pairs.stream().mapToDouble(ScoredPair::standardDe00).toArray();
    double[] difference = new double[job.length];
    for (int i = 0; i < job.length; i++) {
      difference[i] = job[i] - standard[i];
    }
    return Optional.of(
        new Comparison.Differences(
            Quartiles.of(job),
            Quartiles.of(standard),
            Quartiles.of(difference),
            SignedRank.of(difference)));
  }

  private List<FailingColor> failingColors() {
    List<FailingColor> list = new ArrayList<>();
    colors.forEach(
        (key, sum) ->
            list.add(
                new FailingColor(
                    key.set(),
                    key.mixture(),
                    Proportion.wilson(sum.over, sum.limited),
                    sum.de00 / sum.readings,
                    new LabMean(
                        sum.dl / sum.readings, sum.da / sum.readings, sum.db / sum.readings),
                    sum.readings)));
    list.sort(
        Comparator.comparingInt((FailingColor color) -> -color.over().count())
            .thenComparingDouble(color -> -color.meanDe00())
            .thenComparing(FailingColor::set)
            .thenComparing(color -> color.mixture().toString()));
    return list;
  }

  private List<Trend> trends(List<Calibration> calibrations) {
    List<Trend> trends = new ArrayList<>();
    proofs.forEach(
        (source, sums) -> {
          List<Trend.Point> points = new ArrayList<>();
          sums.values().forEach(sum -> points.add(sum.point()));
          Collections.reverse(points);
          trends.add(chart.of(source, points, ofSystem(calibrations, source)));
        });
    return trends;
  }

  private static List<Calibration> ofSystem(
      List<Calibration> calibrations, ScoredPair.Source source) {
    return calibrations.stream()
        .filter(one -> source.proofingSystem().equals(Optional.of(one.proofingSystem())))
        .toList();
  }
}
