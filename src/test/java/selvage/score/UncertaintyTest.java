package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.strip.Strip;

class UncertaintyTest {
  private static final Strip STRIP = ProofFixture.strip("basic");
  private static final Drift DRIFT =
      new Drift(Map.of("Cyan", 6.0), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);

  @Test
  void score_noUncertainty_plainRule() throws InputException {
    ProofScore score = score(Uncertainty.NONE, DRIFT);
    assertThat(score.checks()).allMatch(check -> check.guardBand() == 0);
    assertThat(score.checks()).noneMatch(check -> check.verdict() == Verdict.UNDECIDED);
  }

  /** The band against the spread of the value over repeated noisy readings. */
  @Tag("long")
  @Test
  void score_repeatedReadings_scatterAsTheBandSays() throws InputException {
    double noise = 0.4;
    ProofScore stated = score(new Uncertainty(noise, 1), DRIFT);
    for (String name : new String[] {"all-mean", "job-area-mean", "all-max"}) {
      Check check = check(stated, name);
      double sum = 0;
      double squares = 0;
      int times = 150;
      Random random = new Random(3);
      for (int i = 0; i < times; i++) {
        Drift noisy =
            new Drift(
                DRIFT.tone(),
                Map.of(),
                LabShift.NONE,
                Map.of(),
                LabShift.NONE,
                noise,
                random.nextLong());
        double value = check(score(Uncertainty.NONE, noisy), name).value();
        sum += value;
        squares += value * value;
      }
      double deviation = Math.sqrt((squares - sum * sum / times) / (times - 1));
      assertThat(check.guardBand() / 2).as(name).isCloseTo(deviation, within(0.35 * deviation));
    }
  }

  @Test
  void score_meanOfFour_halfTheBand() throws InputException {
    double one = check(score(new Uncertainty(0.4, 1), DRIFT), "all-max").guardBand();
    double four = check(score(new Uncertainty(0.4, 4), DRIFT), "all-max").guardBand();
    assertThat(four).isCloseTo(one / 2, within(0.02 * one));
  }

  @Test
  void score_valueWithinTheBand_undecided() throws InputException {
    ProofScore exact = score(Uncertainty.NONE, DRIFT);
    Check check = check(exact, "all-max");
    assertThat(check.limit().judge(4.9, 0.2)).isEqualTo(Verdict.UNDECIDED);
    assertThat(check.limit().judge(4.7, 0.2)).isEqualTo(Verdict.PASS);
    assertThat(check.limit().judge(5.3, 0.2)).isEqualTo(Verdict.FAIL);
  }

  @Test
  void uncertainty_negative_refused() {
    assertThatThrownBy(() -> new Uncertainty(-1, 1)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Uncertainty(1, 0)).isInstanceOf(IllegalArgumentException.class);
  }

  /** By hand: V of paper 95 0 0 is 95 95 95; of the solid 45 50 -20: 56.6 45 56.6. */
  @Test
  void spotTone_halfWay_fiftyAndByHand() {
    SpotTone scale = new SpotTone(new Lab(95, 0, 0), new Lab(45, 50, -20));
    assertThat(scale.of(new Lab(95, 0, 0))).isZero();
    assertThat(scale.of(new Lab(45, 50, -20))).isEqualTo(100);
    assertThat(scale.of(new Lab(70, 25, -10))).isCloseTo(50, within(1e-9));
    double tint = Math.sqrt(10 * 10 + 10 * 10 + 10 * 10);
    double solid = Math.sqrt(38.4 * 38.4 + 50 * 50 + 38.4 * 38.4);
    assertThat(scale.of(new Lab(85, 0, 0))).isCloseTo(100 * tint / solid, within(1e-9));
  }

  /** A spot tint that is 6 % heavy at 50 % reads a tone value of 56 %. */
  @Test
  void score_spotTintHeavy_toneValueSaysSo() throws InputException {
    Drift heavy =
        new Drift(
            Map.of("Night Pine", 6.0), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);
    for (ScoredPatch patch : score(Uncertainty.NONE, heavy).patches()) {
      if (patch.patch().mixture().toString().equals("Night Pine 50")) {
        assertThat(patch.sctvAimPercent().getAsDouble()).isCloseTo(50, within(0.01));
        assertThat(patch.sctvPercent().getAsDouble()).isCloseTo(56, within(0.3));
      }
    }
  }

  private static ProofScore score(Uncertainty uncertainty, Drift drift) throws InputException {
    MatchedStrip matched = ProofFixture.read(STRIP, ProofFixture.device(STRIP, drift));
    return new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false, uncertainty)
        .score(matched);
  }

  private static Check check(ProofScore score, String name) {
    return score.checks().stream()
        .filter(check -> check.limit().name().equals(name))
        .findFirst()
        .orElseThrow();
  }
}
