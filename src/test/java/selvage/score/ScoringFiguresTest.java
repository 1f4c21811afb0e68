package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.StripFixture;
import selvage.strip.PatchSet;

/** Figures, notes and findings of small scores, by hand. */
class ScoringFiguresTest {
  private static final Lab GREY = new Lab(50, 0, 0);

  /** Two patches of Cyan 40 stand for 20 and 30 %: read 2 and 4 lighter they are one, 3 lighter. */
  @Test
  void score_equalMixtures_theirSharesAddAndTheirReadingsAverage() throws InputException {
    Lab color = new Lab(50, 10, 7);
    StripFixture fixture = StripFixture.empty();
    fixture.job("tint", Map.of("Cyan", 40.0), color, "condition", 20);
    fixture.job("tint", Map.of("Cyan", 40.0), color, "condition", 30);
    fixture.job("tint", Map.of("Black", 40.0), color, "condition", 50);
    ProofScore score = score(fixture, Uncertainty.NONE, 2, 4, 1, 4, 0, 3, 0, 0, 0);
    assertThat(score.checks().get(0).value())
        .isCloseTo(Math.sqrt(3 * 3 + 2 * 2 + 2 * 2) / 2, within(1e-9));
    assertThat(score.sets().get(0).patches()).isEqualTo(2);
    double difference = ColorDifference.de00(color, new Lab(53, 12, 9));
    assertThat(score.sets().get(0).areaMeanDe00().getAsDouble())
        .isCloseTo(difference / 2, within(1e-9));
    assertThat(score.sets().get(0).areaP95De00().getAsDouble()).isCloseTo(difference, within(1e-9));
  }

  /** A job whose patches stand for nothing has no figures by area, and no checks by area. */
  @Test
  void score_noShares_noFiguresByArea() throws InputException {
    StripFixture fixture = StripFixture.empty();
    fixture.job("tint", Map.of("Cyan", 40.0), GREY, "condition", 0);
    fixture.standard("tint", Map.of("Black", 40.0), GREY);
    ProofScore score = score(fixture, Uncertainty.NONE, 1, 0, 0, 1, 0, 0);
    assertThat(score.checks()).hasSize(1);
    for (SetScore set : score.sets()) {
      assertThat(set.areaMeanDe00()).isEmpty();
      assertThat(set.areaP95De00()).isEmpty();
    }
    assertThat(text(score, "checks-not-made")).endsWith("not made: area");
  }

  @Test
  void score_twoPredictedAims_countedWithTheirShares() throws InputException {
    StripFixture fixture = StripFixture.empty();
    fixture.job("flat", Map.of("Dune Red", 40.0), GREY, "predicted", 12);
    fixture.job("flat", Map.of("Dune Red", 60.0), GREY, "predicted", 14);
    fixture.job("flat", Map.of("Cyan", 60.0), GREY, "condition", 74);
    assertThat(text(score(fixture, Uncertainty.NONE, new double[9]), "predicted-aims-not-judged"))
        .startsWith("2 of 3 patches, which stand for 26 % of the inked area, have predicted aims");
  }

  @Test
  void score_notes_everyMetricInUseAndTheGuardBand() throws InputException {
    StripFixture fixture = StripFixture.empty();
    fixture.job("tint", Map.of("Cyan", 40.0), GREY, "condition", 100);
    List<String> exact = score(fixture, Uncertainty.NONE, 1, 0, 0).metricNotes();
    assertThat(exact)
        .containsExactly(
            Metric.DE00.note(),
            Metric.DE76.note(),
            Metric.DCH.note(),
            Metric.DH.note(),
            Metric.DL.note(),
            "95th percentile: the smallest value that at least 95 % of the patches, or of the"
                + " weight, do not exceed",
            "Lab: as the measurement file has it, D50, 2°, absolute",
            "measured: illumination not stated, backing not stated");
    List<String> banded = score(fixture, new Uncertainty(0.25, 4), 1, 0, 0).metricNotes();
    assertThat(banded)
        .hasSize(9)
        .contains(
            "guard band: twice the standard uncertainty of each check's value, from a"
                + " repeatability of ΔE*ab 0.25 (root mean square), each reading the mean of 4"
                + " (JCGM 106)");
  }

  @Test
  void setScore_countsThatCannotBe_refused() {
    assertThat(set(1, 0).judged()).isZero();
    assertThat(set(2, 2).judged()).isEqualTo(2);
    assertThatIllegalArgumentException().isThrownBy(() -> set(0, 0));
    assertThatIllegalArgumentException().isThrownBy(() -> set(1, 2));
    assertThatIllegalArgumentException().isThrownBy(() -> set(1, -1));
  }

  private static SetScore set(int patches, int judged) {
    return new SetScore(
        PatchSet.JOB,
        patches,
        judged,
        1,
        1,
        1,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Verdict.PASS);
  }

  private static String text(ProofScore score, String code) {
    return score.findings().stream()
        .filter(one -> one.code().equals(code))
        .map(Finding::text)
        .findFirst()
        .orElseThrow();
  }

  /** Held against a mean in ΔE*ab of the job and one by area in ΔL*. */
  private static ProofScore score(StripFixture fixture, Uncertainty uncertainty, double... errors)
      throws InputException {
    Limit mean = limit("mean", Metric.DE76, Statistic.MEAN);
    Limit area = limit("area", Metric.DL, Statistic.AREA_MEAN);
    return new Scoring(new ToleranceSet("t", "test", List.of(mean, area)), false, uncertainty)
        .score(StraightProof.read(fixture.build("KM7T-90QA", 1), errors));
  }

  private static Limit limit(String name, Metric metric, Statistic statistic) {
    return new Limit(
        name, PatchSet.JOB, PatchChoice.ALL, "", metric, statistic, 5, 0, 1, "test", "rule");
  }
}
