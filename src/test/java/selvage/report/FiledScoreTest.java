package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.InputException;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

class FiledScoreTest {
  @Test
  void parse_whatWasWritten_comesBack() throws Exception {
    FiledScore score =
        FiledScore.parse(
            "a.json", LedgerFixture.scoreJson(new LabShift(-9, 0, 0), "AAAA-0001", "AAAA-0002"));

    assertThat(score.verdict()).isEqualTo(Verdict.FAIL);
    assertThat(score.strips()).hasSize(2);
    FiledScore.StripResult strip = score.strips().get(1);
    assertThat(strip.stripId()).isEqualTo("AAAA-0002");
    assertThat(strip.page()).isEqualTo(2);
    assertThat(strip.simulated()).isTrue();
    assertThat(strip.sets()).extracting(set -> set.set()).containsExactly(PatchSet.values());
    assertThat(strip.summary()).contains("beyond their limits");
    assertThat(strip.patches())
        .allSatisfy(
            patch ->
                assertThat(patch.dl())
                    .isEqualTo(
                        patch.lab().l() - patch.aim().l(),
                        org.assertj.core.api.Assertions.within(2e-4)));
    assertThat(strip.patches()).anyMatch(patch -> patch.verdict() == Verdict.FAIL);
  }

  @Test
  void parse_oneStrip_isAListOfOne() throws Exception {
    FiledScore score =
        FiledScore.parse("a.json", LedgerFixture.scoreJson(new LabShift(0, 0, 0), "AAAA-0001"));

    assertThat(score.strips()).hasSize(1);
    assertThat(score.strips().get(0).patches()).allMatch(patch -> patch.verdict() == Verdict.PASS);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "[]", "{}", "{\"scores\": 1}", "{\"verdict\": \"pass\", \"scores\": [{}]}"})
  void parse_noScore_isAFaultOfTheInput(String text) {
    assertThatThrownBy(() -> FiledScore.parse("a.json", text)).isInstanceOf(InputException.class);
  }
}
