package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

class LimitTest {
  private static final Lab GREY = new Lab(50, 0, 0);

  /** Exactly on an edge of the zone counts for the better side. */
  @ParameterizedTest
  @CsvSource({
    "3, 0, PASS",
    "3.001, 0, FAIL",
    "2.5, 0.5, PASS",
    "2.501, 0.5, UNDECIDED",
    "3.5, 0.5, UNDECIDED",
    "3.501, 0.5, FAIL"
  })
  void judge_valueNearTheLimit_byTheBand(double value, double band, Verdict verdict) {
    assertThat(ScoredFixture.limit("max", PatchChoice.ALL).judge(value, band)).isEqualTo(verdict);
  }

  @Test
  void limit_outOfRange_refused() {
    assertThat(limit(3, 0, 1).least()).isEqualTo(1);
    assertThat(limit(3, 2.99, 1).guardBand()).isEqualTo(2.99);
    assertThatIllegalArgumentException().isThrownBy(() -> limit(0, 0, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> limit(3, 3, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> limit(3, -0.1, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> limit(3, 0, 0));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ScoredFixture.limit(" ", PatchChoice.ALL));
  }

  private static Limit limit(double limit, double guardBand, int least) {
    return ScoredFixture.limit("max", PatchSet.JOB, PatchChoice.ALL, limit, guardBand, least);
  }

  @ParameterizedTest
  @CsvSource({
    "'', 0, ALL SUBSTRATE",
    "Cyan, 100, ALL PRIMARIES CHROMATIC_PRIMARIES",
    "Yellow, 100, ALL PRIMARIES CHROMATIC_PRIMARIES",
    "Black, 100, ALL PRIMARIES",
    "Cyan, 99, ALL",
    "Dune Red, 100, ALL SPOT_SOLIDS",
    "Dune Red, 99, ALL SPOT_TINTS",
    "Cyan+Magenta, 100, ALL",
    "Dune Red+Black, 100, ALL",
    "Dune Red+Black, 50, ALL",
  })
  void takes_patchOfAMixture_itsChoices(String inks, double tint, String choices) {
    Map<String, Double> percents = new java.util.TreeMap<>();
    for (String ink : inks.isEmpty() ? new String[0] : inks.split("\\+", -1)) {
      percents.put(ink, tint);
    }
    Patch patch = ScoredFixture.patch(PatchSet.JOB, "flat", percents, GREY, 0);
    List<String> names = List.of(choices.split(" ", -1));
    for (PatchChoice choice : PatchChoice.values()) {
      assertThat(choice.takes(patch)).as("%s", choice).isEqualTo(names.contains(choice.name()));
    }
  }

  @Test
  void takes_nearNeutral_byItsRole() {
    Map<String, Double> inks = Map.of("Cyan", 40.0, "Magenta", 30.0, "Yellow", 30.0);
    Patch neutral = ScoredFixture.patch(PatchSet.STANDARD, "near-neutral", inks, GREY, 0);
    Patch flat = ScoredFixture.patch(PatchSet.STANDARD, "flat", inks, GREY, 0);
    assertThat(PatchChoice.NEAR_NEUTRALS.takes(neutral)).isTrue();
    assertThat(PatchChoice.NEAR_NEUTRALS.takes(flat)).isFalse();
    assertThat(PatchChoice.NEAR_NEUTRALS.word()).isEqualTo("near-neutrals");
    Limit job = ScoredFixture.limit("max", PatchChoice.ALL);
    assertThat(job.takes(neutral)).isFalse();
  }

  @Test
  void figures_belowNothing_refused() {
    Limit limit = ScoredFixture.limit("max", PatchChoice.ALL);
    assertThat(new Check(limit, 1, 0, 0, Verdict.PASS).value()).isZero();
    assertThatIllegalArgumentException().isThrownBy(() -> new Check(limit, 0, 1, 0, Verdict.PASS));
    assertThatIllegalArgumentException().isThrownBy(() -> new Check(limit, 1, -1, 0, Verdict.PASS));
    assertThatIllegalArgumentException().isThrownBy(() -> new Check(limit, 1, 1, -1, Verdict.PASS));

    Patch patch = ScoredFixture.patch(PatchSet.JOB, "flat", Map.of(), GREY, 0);
    assertThat(new PatchMend(patch, InkMixture.PAPER, 0, 0, 1).de00Now()).isZero();
    for (double[] bad : new double[][] {{-1, 0, 1}, {0, -1, 1}, {0, 0, 0}}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new PatchMend(patch, InkMixture.PAPER, bad[0], bad[1], bad[2]));
    }

    assertThat(diagnosis(0, 0, 0).errorDe76()).isZero();
    for (double[] bad : new double[][] {{-1, 0, 0}, {0, -1, 0}, {0, 0, -1}}) {
      assertThatIllegalArgumentException().isThrownBy(() -> diagnosis(bad[0], bad[1], bad[2]));
    }
  }

  private static Diagnosis diagnosis(double error, double rest, double share) {
    return new Diagnosis(List.of(), 1, error, rest, share, List.of(), List.of());
  }

  @Test
  void and_twoVerdicts_theWorse() {
    for (Verdict verdict : Verdict.values()) {
      assertThat(verdict.and(Verdict.PASS)).isEqualTo(verdict);
      assertThat(Verdict.PASS.and(verdict)).isEqualTo(verdict);
      assertThat(verdict.and(Verdict.FAIL)).isEqualTo(Verdict.FAIL);
    }
    assertThat(Verdict.UNDECIDED.word()).isEqualTo("undecided");
  }
}
