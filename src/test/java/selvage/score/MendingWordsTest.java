package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.ink.InkMixture;
import selvage.measurement.Alignment;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

class MendingWordsTest {
  private static final Limit PAPER = ScoredFixture.limit("substrate", PatchChoice.SUBSTRATE);
  private static final Limit SOLIDS = ScoredFixture.limit("spot-solids", PatchChoice.SPOT_SOLIDS);

  @Test
  void of_noCause_onlyThat() {
    assertThat(MendingWords.of(false, List.of(score(Verdict.FAIL)), List.of()))
        .containsExactly("No cause was found that a correction could undo.");
  }

  @ParameterizedTest
  @CsvSource({"PASS, pass", "FAIL, still fail", "UNDECIDED, be too close to a limit to decide"})
  void of_score_whatAReprintWouldCome(Verdict verdict, String would) {
    assertThat(MendingWords.of(true, List.of(score(verdict)), List.of()))
        .containsExactly(
            "Page 2, reprinted through the correction, would probably "
                + would
                + " (predicted ΔE00: job mean 1.25, maximum 2.50; standard mean 0.75, maximum"
                + " 1.00).");
  }

  @Test
  void of_checksThatFail_whatToDoAboutEach() {
    ProofScore score =
        score(
            Verdict.FAIL,
            new Check(PAPER, 1, 4, 0, Verdict.FAIL),
            new Check(SOLIDS, 1, 3.456, 0, Verdict.FAIL),
            new Check(SOLIDS, 1, 3, 0, Verdict.UNDECIDED),
            new Check(SOLIDS, 1, 2, 0, Verdict.PASS));
    List<String> words = MendingWords.of(true, List.of(score), List.of());
    assertThat(words).hasSize(3);
    assertThat(words.subList(1, 3))
        .containsExactly(
            "The paper itself is off; no ink mends that: take the right paper.",
            "spot-solids would stay at 3.46, over its limit of 3.00; mend the device or its inks"
                + " first.");
  }

  @Test
  void of_patch_whatToSend() {
    Patch patch =
        ScoredFixture.patch(
            PatchSet.JOB, "flat", Map.of("Dune Red", 100.0), new Lab(46, 60, 40), 5);
    PatchMend mend =
        new PatchMend(
            patch,
            InkMixture.ofPercents(Map.of("Dune Red", 96.0, "Yellow", 4.5)),
            4.126,
            0.874,
            2.5);
    assertThat(MendingWords.of(true, List.of(), List.of(mend)))
        .containsExactly(
            "P1: instead of Dune Red 100 send Yellow 4.5 + Dune Red 96; ΔE00 4.13 now, 0.87"
                + " predicted.");
  }

  @Test
  void reach_mixtureOverOrWithinItsLimit_whatItTakes() {
    InkMixture mixture = InkMixture.ofPercents(Map.of("Dune Red", 100.0));
    assertThat(MendingWords.reach(mixture, 2.51, 2.5))
        .isEqualTo(
            "Dune Red 100 is out of reach: no curve and no mixture of these inks comes nearer than"
                + " ΔE00 2.51; it takes denser inks, another paper, or a profile with more room.");
    assertThat(MendingWords.reach(mixture, 2.5, 2.5))
        .isEqualTo(
            "Dune Red 100 is within reach of a mixture of its own (ΔE00 2.50), not of the curves"
                + " that hold for all: it takes a new profile of the device.");
  }

  /** A patch that reads odd is a finding on the score. */
  @Test
  void with_oddPatch_findingThatNamesIt() {
    Diagnosis diagnosis =
        new Diagnosis(List.of(), 3, 1, 1, 1, List.of("J3", "S7"), List.of("Nothing."));
    assertThat(score(Verdict.FAIL).with(Finding.note("a", "b")).with(diagnosis).findings())
        .extracting(Finding::toString)
        .hasSize(3)
        .anyMatch(text -> text.contains("patch-reads-odd") && text.contains("J3 reads far off"))
        .anyMatch(text -> text.contains("patch-reads-odd") && text.contains("S7 reads far off"));
  }

  /** A score with a diagnosis or one more finding is otherwise the same. */
  @Test
  void with_diagnosisAndFinding_restAsBefore() {
    ProofScore score = score(Verdict.PASS);
    Diagnosis diagnosis = new Diagnosis(List.of(), 3, 1, 1, 1, List.of(), List.of("Nothing."));
    ProofScore diagnosed = score.with(diagnosis);
    assertThat(diagnosed.diagnosis()).contains(diagnosis);
    assertThat(diagnosed.sets()).isEqualTo(score.sets());
    assertThat(diagnosed.findings()).isEmpty();
    ProofScore doubted = diagnosed.with(Finding.note("a-doubt", "Something."));
    assertThat(doubted.findings()).extracting(Finding::code).containsExactly("a-doubt");
    assertThat(doubted.diagnosis()).contains(diagnosis);
    assertThat(doubted.page()).isEqualTo(2);
  }

  private static ProofScore score(Verdict verdict, Check... checks) {
    return new ProofScore(
        "KM7T-90QA",
        2,
        "m.txt",
        false,
        new ToleranceSet("t", "test", List.of(PAPER)),
        List.of(),
        verdict,
        List.of(set(PatchSet.JOB, 1.25, 2.5), set(PatchSet.STANDARD, 0.75, 1)),
        List.of(checks),
        List.of(),
        new Alignment("by-id", 1),
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  private static SetScore set(PatchSet set, double mean, double max) {
    return new SetScore(
        set, 3, 3, mean, max, max, OptionalDouble.empty(), OptionalDouble.empty(), Verdict.PASS);
  }
}
