package selvage.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.ledger.Calibration;
import selvage.ledger.ScoreFilter;
import selvage.ledger.ScoredStrip;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

class ComparisonBuilderTest {
  private static final Instant BEGIN = Instant.parse("2026-09-01T08:00:00Z");
  private static final InkMixture SPOT = InkMixture.ofPercents(Map.of("Dune Red", 100.0));

  private final List<ScoredStrip> strips = new ArrayList<>();

  @Test
  void build_verdicts_countEscapesAndFalseAlarms() {
    add("a", Verdict.PASS, Verdict.PASS, 0);
    add("b", Verdict.FAIL, Verdict.PASS, 0);
    add("c", Verdict.FAIL, Verdict.PASS, 0);
    add("d", Verdict.PASS, Verdict.FAIL, 0);
    add("e", Verdict.UNDECIDED, Verdict.PASS, 0);
    add("f", Verdict.FAIL, Verdict.UNDECIDED, 0);

    Comparison comparison = compare(List.of());
    assertThat(comparison.table().total()).isEqualTo(6);
    assertThat(comparison.table().decided()).isEqualTo(new PairedVerdicts(1, 2, 1, 0));
    assertThat(comparison.table().escapes().count()).isEqualTo(2);
    assertThat(comparison.table().escapes().of()).isEqualTo(3);
    assertThat(comparison.table().falseAlarms().of()).isEqualTo(1);
    assertThat(comparison.pairs())
        .extracting(ScoredPair::proof)
        .containsExactly("a", "b", "c", "d", "e", "f");
  }

  @Test
  void build_stripScoredTwice_theLastCounts() {
    add("a", Verdict.FAIL, Verdict.FAIL, 0);
    add("a", Verdict.PASS, Verdict.PASS, 0);

    Comparison comparison = compare(List.of());
    assertThat(comparison.table().decided()).isEqualTo(new PairedVerdicts(1, 0, 0, 0));
    assertThat(comparison.left().earlier()).isEqualTo(1);
    assertThat(comparison.trends().get(0).stages().get(0).points()).hasSize(1);
  }

  @Test
  void build_oneSetOnly_isLeftOut() {
    add("a", Verdict.PASS, Verdict.PASS, 0);
    ScoredStrip whole = strips.get(0);
    strips.add(strip("b", whole.sets().subList(0, 1), 0));

    Comparison comparison = compare(List.of());
    assertThat(comparison.pairs()).hasSize(1);
    assertThat(comparison.left().withoutBoth()).isEqualTo(1);
  }

  @Test
  void build_colors_tellHowOftenAndWhereTo() {
    add("a", Verdict.FAIL, Verdict.PASS, 0);
    add("b", Verdict.PASS, Verdict.PASS, 0);

    FailingColor color =
        compare(List.of()).colors().stream()
            .filter(one -> one.mixture().equals(SPOT))
            .findFirst()
            .orElseThrow();
    assertThat(color.over().count()).isEqualTo(1);
    assertThat(color.over().of()).isEqualTo(2);
    assertThat(color.meanDe00()).isCloseTo(2.5, within(1e-12));
    assertThat(color.direction().da()).isCloseTo(-2.5, within(1e-12));
    assertThat(color.direction().words()).isEqualTo("greener");
  }

  @Test
  void build_nothing_isEmptyAndSaysSo() {
    Comparison comparison = compare(List.of());
    assertThat(comparison.differences()).isEmpty();
    assertThat(comparison.table().escapes().of()).isZero();
    assertThat(comparison.table().escapes().high()).isEqualTo(1);
    assertThat(comparison.trends()).isEmpty();
  }

  /** A step of three standard deviations is an alarm within some proofs, and names the first. */
  @Test
  void trend_stepAfterTheBaseline_isAnAlarm() {
    for (int i = 0; i < 12; i++) {
      add("before " + i, Verdict.PASS, Verdict.PASS, i % 2 == 0 ? 0.1 : -0.1);
    }
    for (int i = 0; i < 10; i++) {
      add("after " + i, Verdict.PASS, Verdict.PASS, 0.4);
    }
    Trend trend = compare(List.of()).trends().get(0);
    Trend.Baseline baseline = trend.stages().get(0).baseline().orElseThrow();
    assertThat(baseline.centre().db()).isCloseTo(0, within(1e-12));
    assertThat(baseline.sigma().db())
        .isCloseTo(0.1 * Math.sqrt(10.0 / 9) / 0.9726593, within(1e-6));
    List<Trend.Alarm> alarms = Comparison.alarms(trend);
    assertThat(alarms).hasSize(1);
    assertThat(alarms.get(0).proof()).isEqualTo("after 1");
    assertThat(alarms.get(0).lasted()).isEqualTo(9);
    assertThat(alarms.get(0).word()).isEqualTo("yellower");
  }

  @Test
  void trend_calibration_beginsANewBaseline() {
    for (int i = 0; i < 12; i++) {
      add("before " + i, Verdict.PASS, Verdict.PASS, i % 2 == 0 ? 0.1 : -0.1);
    }
    for (int i = 0; i < 12; i++) {
      add("after " + i, Verdict.PASS, Verdict.PASS, i % 2 == 0 ? 2.1 : 1.9);
    }
    Instant calibrated = BEGIN.plus(Duration.ofDays(12)).minusSeconds(1);
    Trend trend =
        compare(
                List.of(
                    new Calibration("Alder", calibrated, "new inks"),
                    new Calibration("Birch", BEGIN.plusSeconds(5), "another device")))
            .trends()
            .get(0);
    assertThat(trend.stages()).hasSize(2);
    assertThat(trend.stages().get(1).begin()).contains(calibrated);
    assertThat(trend.stages().get(1).note()).isEqualTo("new inks");
    assertThat(trend.stages().get(1).baseline().orElseThrow().centre().db())
        .isCloseTo(2, within(1e-12));
    assertThat(Comparison.alarms(trend)).isEmpty();
  }

  @Test
  void trend_tooFewProofs_hasNoBaselineAndNoAlarm() {
    for (int i = 0; i < 10; i++) {
      add("proof " + i, Verdict.PASS, Verdict.PASS, i);
    }
    Trend trend = compare(List.of()).trends().get(0);
    assertThat(trend.stages().get(0).baseline()).isEmpty();
    assertThat(Comparison.alarms(trend)).isEmpty();
  }

  private Comparison compare(List<Calibration> calibrations) {
    ComparisonBuilder builder =
        new ComparisonBuilder(Ewma.USUAL, ComparisonBuilder.BASELINE_PROOFS);
    List<ScoredStrip> latestFirst = new ArrayList<>(strips);
    Collections.reverse(latestFirst);
    latestFirst.forEach(builder::add);
    return builder.build("season.db", ScoreFilter.ALL, calibrations);
  }

  /**
   * The next day's proof; the job's spot is off by 5 where it fails, the standard patch by that.
   */
  private void add(String proof, Verdict job, Verdict standard, double shift) {
    strips.add(
        strip(
            proof,
            List.of(
                new ScoredStrip.SetResult(PatchSet.JOB, job, 1, job == Verdict.FAIL ? 3 : 1, 5),
                new ScoredStrip.SetResult(PatchSet.STANDARD, standard, 1, 1, 2)),
            shift));
  }

  private ScoredStrip strip(String proof, List<ScoredStrip.SetResult> sets, double shift) {
    boolean failed = sets.get(0).verdict() == Verdict.FAIL;
    return new ScoredStrip(
        "score " + strips.size(),
        "AAAA-0001",
        Optional.of(proof),
        1,
        BEGIN.plus(Duration.ofDays(strips.size())),
        proof,
        Optional.of("Alder"),
        Optional.of("semi-matt"),
        Optional.of("FOGRA39"),
        false,
        "house",
        sets,
        List.of(
            new ScoredStrip.Reading(
                PatchSet.JOB,
                "J01",
                Optional.of(SPOT),
                Optional.of("spot-solid"),
                new Lab(46, 60, 40),
                new Lab(46, failed ? 55 : 60, 40),
                failed ? 5 : 0,
                Optional.of(failed)),
            new ScoredStrip.Reading(
                PatchSet.STANDARD,
                "S01",
                Optional.of(InkMixture.PAPER),
                Optional.of("substrate"),
                new Lab(95, 0, -2),
                new Lab(95, 0, -2 + shift),
                Math.abs(shift),
                Optional.of(false))));
  }
}
