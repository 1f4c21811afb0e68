package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Matching;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.measurement.SheetPatch;
import selvage.measurement.StripFixture;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

class ScoringTest {
  private static final Strip STRIP = StripFixture.strip("KM7T-90QA", 1);

  @Test
  void score_readingsAreAims_passWithWarning() throws InputException {
    ProofScore score = score(Map.of(), false);
    assertThat(score.verdict()).isEqualTo(Verdict.PASS);
    assertThat(score.sets()).hasSize(2).allMatch(set -> set.maxDe00() == 0);
    assertThat(codes(score)).contains("readings-equal-aims", "predicted-aims-not-judged");
    assertThat(score.checks())
        .extracting(check -> check.limit().name())
        .containsExactly(
            "substrate",
            "all-mean",
            "all-max",
            "primaries",
            "hue",
            "near-neutrals-mean",
            "near-neutrals-max",
            "spot-solids",
            "job-mean",
            "job-max",
            "job-area-mean",
            "job-area-p95");
  }

  /** Each shift breaks one limit of the 2016 set and leaves the others. */
  @ParameterizedTest
  @CsvSource({
    "S02 S07, -5.4, 0, 0, DL, substrate",
    "S03, 0, -14, 0, DC, primaries",
    "S06, 0, 3.6, 0, DCH, near-neutrals-mean near-neutrals-max",
    "J02, 3, 0, 0, DL, spot-solids",
  })
  void score_onePatchOff_itsChecksFail(
      String ids, double dl, double da, double db, String what, String failing)
      throws InputException {
    Map<String, LabShift> shifts = new HashMap<>();
    for (String id : ids.split(" ", -1)) {
      shifts.put(id, new LabShift(dl, da, db));
    }
    ProofScore score = score(shifts, false);
    List<String> failed = new ArrayList<>();
    for (Check check : score.checks()) {
      if (check.verdict() == Verdict.FAIL && !check.limit().name().startsWith("job-")) {
        failed.add(check.limit().name());
      }
    }
    assertThat(String.join(" ", failed)).as(what).isEqualTo(failing);
    assertThat(score.verdict()).isEqualTo(Verdict.FAIL);
  }

  /**
   * Paper stands in S02 and S07: 1 and 2 lighter than the aim make one patch that is 1.5 lighter.
   */
  @Test
  void score_equalMixtures_averagedAndCountedOnce() throws InputException {
    ProofScore score =
        score(Map.of("S02", new LabShift(1, 0, 0), "S07", new LabShift(2, 0, 0)), false);
    SetScore standard = score.sets().get(1);
    assertThat(standard.patches()).isEqualTo(6);
    Check substrate = score.checks().get(0);
    assertThat(substrate.patches()).isEqualTo(1);
    Lab aim = new Lab(95, 0, -2);
    assertThat(substrate.value())
        .isCloseTo(ColorDifference.de00(aim, new Lab(96.5, 0, -2)), within(1e-9));
    assertThat(standard.meanDe00()).isCloseTo(substrate.value() / 6, within(1e-9));
    assertThat(score.patches()).hasSize(11);
    assertThat(text(score, "equal-patches-averaged")).startsWith("S02, S07 print the same (paper)");
    assertThat(codes(score(Map.of("S02", new LabShift(-9, 0, 0)), false)))
        .contains("equal-patches-differ");
  }

  /** Only L* moves, at L* 50 and above the mean: ΔE76 is the shift itself, by hand. */
  @Test
  void score_shiftsInLightness_statisticsByHand() throws InputException {
    ProofScore score =
        score(
            Map.of(
                "J01", new LabShift(1, 0, 0),
                "J02", new LabShift(-2, 0, 0),
                "J03", new LabShift(8, 0, 0),
                "J04", new LabShift(0.5, 0, 0)),
            "de76",
            0,
            false);
    assertThat(value(score, "mean")).isCloseTo((1 + 2 + 0.5) / 3, within(1e-9));
    assertThat(value(score, "max")).isCloseTo(2, within(1e-9));
    assertThat(value(score, "area-mean"))
        .isCloseTo((20 * 1 + 50 * 2 + 20 * 0.5) / 90, within(1e-9));
    assertThat(value(score, "area-p95")).isCloseTo(2, within(1e-9));
    ScoredPatch second = patch(score, "J02");
    assertThat(second.dl()).isCloseTo(-2, within(1e-9));
    assertThat(second.de76()).isCloseTo(2, within(1e-9));
    assertThat(second.dch()).isZero();
    assertThat(second.dh()).isZero();
  }

  @Test
  void score_predictedAimFarOff_listedButDoesNotFail() throws InputException {
    Map<String, LabShift> off = Map.of("J03", new LabShift(0, 20, 0));
    ProofScore score = score(off, false);
    assertThat(score.verdict()).isEqualTo(Verdict.PASS);
    assertThat(patch(score, "J03").judged()).isFalse();
    assertThat(patch(score, "J03").de76()).isCloseTo(20, within(1e-9));
    SetScore job = score.sets().get(0);
    assertThat(job.patches()).isEqualTo(4);
    assertThat(job.judged()).isEqualTo(3);
    assertThat(job.maxDe00()).isGreaterThan(5);
    assertThat(text(score, "predicted-aims-not-judged"))
        .contains("1 of 11 patches, which stand for 10 % of the inked area");

    ProofScore judged = score(off, true);
    assertThat(judged.verdict()).isEqualTo(Verdict.FAIL);
    assertThat(codes(judged)).contains("predicted-aims-judged");
  }

  @ParameterizedTest
  @CsvSource({
    "2.0, 0, PASS",
    "2.01, 0, FAIL",
    "1.7, 0.2, PASS",
    "1.9, 0.2, UNDECIDED",
    "2.1, 0.2, UNDECIDED",
    "2.3, 0.2, FAIL"
  })
  void score_nearTheLimit_guardBandDecides(double shift, double guardBand, Verdict verdict)
      throws InputException {
    Map<String, LabShift> all =
        Map.of(
            "J01", new LabShift(shift, 0, 0),
            "J02", new LabShift(shift, 0, 0),
            "J04", new LabShift(shift, 0, 0));
    ProofScore score = score(all, "de76", guardBand, false);
    assertThat(score.sets().get(0).verdict()).isEqualTo(verdict);
  }

  @Test
  void score_jobFailsStandardPasses_failInSum() throws InputException {
    ProofScore score = score(Map.of("J02", new LabShift(0, 12, 0)), false);
    assertThat(score.sets())
        .extracting(SetScore::set)
        .containsExactly(PatchSet.JOB, PatchSet.STANDARD);
    assertThat(score.sets())
        .extracting(SetScore::verdict)
        .containsExactly(Verdict.FAIL, Verdict.PASS);
    assertThat(score.verdict()).isEqualTo(Verdict.FAIL);
  }

  @Test
  void score_onlyPredictedPatches_undecided() throws InputException {
    Strip strip =
        StripFixture.empty()
            .job(
                "flat",
                Map.of("Dune Red", 30.0, "Black", 20.0),
                new Lab(60, 9, 9),
                "predicted",
                100)
            .build("PPPP-0000", 1);
    ProofScore score = scoring(false).score(matched(strip, Map.of()));
    assertThat(score.verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(codes(score)).contains("set-not-judged", "checks-not-made");
  }

  @Test
  void score_fewerPatchesThanMeant_saidSo() throws InputException {
    assertThat(text(score(Map.of(), false), "few-patches")).contains("at least 5 patches, found 1");
  }

  @Test
  void score_noReading_refused() {
    MatchedStrip none =
        new MatchedStrip(
            STRIP,
            measurement(STRIP, Map.of()),
            new selvage.measurement.Alignment("by-id", 1),
            List.of(),
            List.of());
    assertThatThrownBy(() -> scoring(false).score(none)).isInstanceOf(InputException.class);
  }

  private static double value(ProofScore score, String check) {
    return score.checks().stream()
        .filter(one -> one.limit().name().equals(check))
        .findFirst()
        .orElseThrow()
        .value();
  }

  private static ScoredPatch patch(ProofScore score, String id) {
    return score.patches().stream()
        .filter(one -> one.patch().id().equals(id))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> codes(ProofScore score) {
    return score.findings().stream().map(Finding::code).toList();
  }

  private static String text(ProofScore score, String code) {
    return score.findings().stream()
        .filter(one -> one.code().equals(code))
        .findFirst()
        .orElseThrow()
        .text();
  }

  private static Scoring scoring(boolean judgePredicted) throws InputException {
    return new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), judgePredicted);
  }

  private static ProofScore score(Map<String, LabShift> shifts, boolean judgePredicted)
      throws InputException {
    return scoring(judgePredicted).score(matched(STRIP, shifts));
  }

  /** Scored with a limit of 2 on every statistic of the job set. */
  private static ProofScore score(
      Map<String, LabShift> shifts, String metric, double guardBand, boolean judgePredicted)
      throws InputException {
    StringBuilder limits = new StringBuilder();
    for (Statistic statistic : Statistic.values()) {
      limits
          .append(limits.length() == 0 ? "" : ",")
          .append("{\"name\":\"" + statistic.word() + "\",\"set\":\"job\",\"patches\":\"all\",")
          .append("\"metric\":\"" + metric + "\",\"statistic\":\"" + statistic.word() + "\",")
          .append("\"limit\":2.0,\"source\":\"test\",\"mark\":\"house rule\"}");
    }
    String json =
        "{\"selvage_tolerance\":1,\"name\":\"t\",\"source\":\"test\",\"guard_band\":"
            + guardBand
            + ",\"limits\":["
            + limits
            + "]}";
    ToleranceSet set = ToleranceSets.parse("t.json", json.getBytes(StandardCharsets.UTF_8));
    return new Scoring(set, judgePredicted).score(matched(STRIP, shifts));
  }

  private static MatchedStrip matched(Strip strip, Map<String, LabShift> shifts)
      throws InputException {
    return Matching.match(strip, measurement(strip, shifts), false);
  }

  private static Measurement measurement(Strip strip, Map<String, LabShift> shifts) {
    List<Reading> readings = new ArrayList<>();
    for (SheetPatch patch : SheetPatch.of(strip)) {
      LabShift shift = shifts.getOrDefault(patch.first().id(), LabShift.NONE);
      readings.add(
          new Reading(
              patch.first().id(),
              "",
              Map.of(),
              shift.applied(patch.first().aim().lab(), 1),
              readings.size() + 1));
    }
    return new Measurement(
        "m.txt",
        Map.of(),
        MeasurementCondition.UNKNOWN,
        Measurement.LabOrigin.LAB,
        false,
        readings,
        List.of());
  }
}
