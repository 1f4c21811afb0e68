package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.color.ColorDifference;
import selvage.color.Correction;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.measurement.MatchedStrip;
import selvage.measurement.StripFixture;
import selvage.score.Cause.Kind;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/** Mendings of a press of straight lines, whose reprints are reckoned by hand. */
class StraightMendingTest {
  private static final Strip STRIP = StraightProof.strip();
  private static final PrintModel MODEL = StraightPress.model();
  private static final Diagnosing DIAGNOSING =
      new Diagnosing(StraightPress.condition(), List.of(STRIP));
  private static final Limit LOOSE =
      ScoredFixture.limit("job-max", PatchSet.JOB, PatchChoice.ALL, 4, 0, 1);

  /**
   * A tone that moved is undone by a curve; what remains in the reprint is the error that each
   * patch had beside it. No mixture needs to be replaced.
   */
  @Test
  void mend_toneAndOwnErrors_ownErrorsRemain() throws InputException {
    double[] errors = StraightProof.errors(STRIP, StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.1));
    double[] own = new double[errors.length];
    for (int i = 0; i < own.length; i++) {
      own[i] = i / 3 % 2 == 0 ? 0.15 : -0.15;
      errors[i] += own[i];
    }
    Mending mending = mend(STRIP, errors, LOOSE);
    List<ScoredPatch> predicted = mending.predicted().get(0).patches();
    assertThat(predicted).hasSize(30);
    for (int row = 0; row < 30; row++) {
      Lab aim = predicted.get(row).patch().aim().lab();
      Lab lab = predicted.get(row).lab();
      assertThat(lab.l() - aim.l()).as("L* of %d", row).isCloseTo(own[3 * row], within(0.25));
      assertThat(lab.a() - aim.a()).as("a* of %d", row).isCloseTo(own[3 * row], within(0.25));
      assertThat(lab.b() - aim.b()).as("b* of %d", row).isCloseTo(own[3 * row], within(0.25));
    }
    assertThat(mending.correction().recipes()).isEmpty();
    assertThat(mending.predicted().get(0).verdict()).isEqualTo(Verdict.PASS);
    assertThat(mending.words().get(0)).startsWith("Page 1, reprinted through the correction");
  }

  /** A patch misread tells nothing of the others: it keeps its error, they are predicted well. */
  @Test
  void mend_onePatchMisread_othersPredictedWithoutIt() throws InputException {
    double[] errors = StraightProof.errors(STRIP, StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.08));
    errors[3 * 7] += 8;
    errors[3 * 7 + 2] += 6;
    List<ScoredPatch> predicted = mend(STRIP, errors, LOOSE).predicted().get(0).patches();
    for (int row = 0; row < 30; row++) {
      assertThat(predicted.get(row).de76())
          .as("patch %d", row)
          .isCloseTo(row == 7 ? 10 : 0, within(0.4));
    }
  }

  /**
   * Where all is 9 too dark, every job patch is out, each by the least limit on it alone: a mean, a
   * limit in ΔE*ab or one on other patches is none. A patch of both sets has those of both.
   */
  @Test
  void mend_everythingOff_leastLimitOnEachPatchAlone() throws InputException {
    StripFixture fixture = StripFixture.empty();
    fixture.both("solid", Map.of("Cyan", 100.0), aim("Cyan", 100), 10);
    fixture.job("spot", Map.of("Dune Red", 100.0), StraightPress.RED, "library", 10);
    fixture.job("spot", Map.of("Dune Red", 50.0), aim("Dune Red", 50), "library", 10);
    fixture.job("tint", Map.of("Cyan", 50.0), aim("Cyan", 50), "condition", 10);
    fixture.standard("solid", Map.of("Black", 100.0), aim("Black", 100));
    fixture.standard("tint", Map.of("Magenta", 50.0), aim("Magenta", 50));
    fixture.standard("tint", Map.of("Yellow", 50.0), aim("Yellow", 50));
    Strip strip = fixture.build("KM7T-90QA", 1);
    double[] errors = new double[21];
    Arrays.setAll(errors, i -> i % 3 == 0 ? -9 : 0);
    Mending mending =
        mend(
            strip,
            errors,
            LOOSE,
            ScoredFixture.limit("solids", PatchSet.JOB, PatchChoice.SPOT_SOLIDS, 2.5, 0, 1),
            ScoredFixture.limit("primaries", PatchSet.STANDARD, PatchChoice.PRIMARIES, 3, 0, 1),
            limit("mean", Metric.DE00, Statistic.MEAN, 1),
            limit("de76", Metric.DE76, Statistic.MAX, 2));
    assertThat(mending.patches())
        .extracting(one -> one.patch().id())
        .containsExactly("J01", "J02", "J03", "J04");
    assertThat(mending.patches()).extracting(PatchMend::limit).containsExactly(3.0, 2.5, 4.0, 4.0);
    for (PatchMend one : mending.patches()) {
      Lab aim = one.patch().aim().lab();
      assertThat(one.de00Now())
          .isCloseTo(
              ColorDifference.de00(aim, new Lab(aim.l() - 9, aim.a(), aim.b())), within(1e-9));
      assertThat(one.corrected()).isEqualTo(mending.correction().of(one.patch().mixture()));
    }
  }

  /** Without a limit on single patches, 5 is the house rule. */
  @Test
  void mend_noLimitOnSinglePatches_five() throws InputException {
    double[] errors =
        StraightProof.errors(STRIP, StraightPress.at(MODEL, Kind.RECIPE, "Night Pine", 12, 0, 0));
    Mending mending = mend(STRIP, errors, limit("mean", Metric.DE00, Statistic.MEAN, 1));
    assertThat(mending.patches()).isNotEmpty().allMatch(one -> one.limit() == 5);
    assertThat(mending.patches()).allMatch(one -> one.de00Now() > 5);
  }

  /**
   * An ink that is off gets mixtures of its own where curves do not reach: for patches of that ink
   * alone and only where that helps. The reprint comes as near as the press makes it.
   */
  @Test
  void mend_spotOff_itsMixturesReplaced() throws InputException {
    double[] cause = StraightPress.at(MODEL, Kind.RECIPE, "Night Pine", 6, 14, 5);
    double[] errors = StraightProof.errors(STRIP, cause);
    Mending mending = mend(STRIP, errors, LOOSE);
    Map<InkMixture, InkMixture> recipes = mending.correction().recipes();
    assertThat(recipes).containsKey(StraightPress.one("Night Pine", 100));
    for (InkMixture mixture : recipes.keySet()) {
      assertThat(mixture.toString()).contains("Night Pine");
    }
    for (ScoredPatch patch : mending.predicted().get(0).patches()) {
      InkMixture sent = mending.correction().of(patch.patch().mixture());
      double[] printed = MODEL.print(cause, MODEL.tints(List.of(sent)));
      assertThat(ColorDifference.de76(new Lab(printed[0], printed[1], printed[2]), patch.lab()))
          .as("%s", patch.patch().mixture())
          .isLessThan(0.3);
    }
    for (PatchMend one : mending.patches()) {
      assertThat(one.de00After()).isLessThan(0.5 * one.de00Now());
    }
  }

  @Test
  void mend_noCause_nothingToUndo() throws InputException {
    Mending mending = mend(STRIP, new double[90], LOOSE);
    assertThat(mending.words()).containsExactly("No cause was found that a correction could undo.");
    assertThat(mending.patches()).isEmpty();
    assertThat(mending.correction().recipes()).isEmpty();
    assertThat(mending.correction().inkLimitPercent()).isEqualTo(300);
    for (ScoredPatch patch : mending.predicted().get(0).patches()) {
      assertThat(patch.de76()).isLessThan(0.1);
    }
  }

  @Test
  void mend_twoStrips_aScoreEach() throws InputException {
    StripFixture fixture = StripFixture.empty();
    fixture.job("tint", Map.of("Cyan", 40.0), aim("Cyan", 40), "condition", 50);
    fixture.job("tint", Map.of("Cyan", 60.0), aim("Cyan", 60), "condition", 50);
    Strip second = fixture.build("XX00-Q1ZZ", 2);
    double[] cause = StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.1);
    MatchedStrip one = StraightProof.read(STRIP, StraightProof.errors(STRIP, cause));
    MatchedStrip two = StraightProof.read(second, StraightProof.errors(second, cause));
    Mending mending = mender(List.of(STRIP, second), LOOSE).mend(List.of(one, two));
    assertThat(mending.predicted()).extracting(ProofScore::page).containsExactly(1, 2);
    assertThat(mending.predicted())
        .extracting(one1 -> one1.patches().size())
        .containsExactly(30, 2);
    for (ScoredPatch patch : mending.predicted().get(1).patches()) {
      assertThat(patch.de76()).isLessThan(0.4);
    }
  }

  /** Of the sets of curves that were tried, the one that leaves the least of the limit used. */
  @Test
  void mend_severalSetsOfCurves_theOneThatLeavesLeast() throws InputException {
    double[] cause = StraightPress.at(MODEL, Kind.DENSITY, "Night Pine", 0.25);
    Limit limit = ScoredFixture.limit("job-max", PatchSet.JOB, PatchChoice.ALL, 1, 0, 1);
    double[] limits = new double[30];
    Arrays.fill(limits, 1);
    MatchedStrip matched = StraightProof.read(STRIP, StraightProof.errors(STRIP, cause));
    double[] found = DIAGNOSING.fit(Sheet.of(List.of(matched))).result().parameters();
    List<List<Correction.Curve>> sets =
        new CurveFit(MODEL, found, MODEL.tints(StraightPress.mixtures()), limits, 300).curves();
    assertThat(sets).hasSize(4);
    double[] greatest = new double[4];
    for (int set = 0; set < 4; set++) {
      Correction correction = new Correction(sets.get(set), Map.of(), 300);
      for (InkMixture mixture : StraightPress.mixtures()) {
        double[] printed = MODEL.print(found, MODEL.tints(List.of(correction.of(mixture))));
        greatest[set] =
            Math.max(
                greatest[set],
                ColorDifference.de00(
                    StraightProof.aim(mixture), new Lab(printed[0], printed[1], printed[2])));
      }
    }
    int chosen =
        sets.indexOf(mend(STRIP, StraightProof.errors(STRIP, cause), limit).correction().curves());
    assertThat(greatest[0]).isGreaterThan(greatest[chosen] + 1);
    assertThat(greatest[chosen])
        .isLessThanOrEqualTo(Arrays.stream(greatest).min().getAsDouble() + 0.02);
  }

  /**
   * A yellow that prints thin by three tenths can't be sent higher than its solid: the report says
   * of it that it is out of reach; of limits on means or in another unit, and of those that are
   * met, it says nothing.
   */
  @Test
  void mend_solidTooThin_saidToBeOutOfReach() throws InputException {
    double[] errors =
        StraightProof.errors(STRIP, StraightPress.at(MODEL, Kind.DENSITY, "Yellow", -0.3));
    Limit most = ScoredFixture.limit("job-max", PatchSet.JOB, PatchChoice.ALL, 1, 0, 1);
    assertThat(mend(STRIP, errors, most).words())
        .filteredOn(sentence -> sentence.contains("reach"))
        .hasSize(1)
        .allMatch(sentence -> sentence.startsWith("Yellow 100 is out of reach: no curve"));
    assertThat(
            mend(
                    STRIP,
                    errors,
                    most,
                    ScoredFixture.limit("again", PatchSet.JOB, PatchChoice.ALL, 1, 0, 1))
                .words())
        .filteredOn(sentence -> sentence.contains("reach"))
        .hasSize(1);
    for (Limit other :
        List.of(
            limit("mean", Metric.DE00, Statistic.MEAN, 0.01),
            limit("de76", Metric.DE76, Statistic.MAX, 0.1),
            ScoredFixture.limit("job-max", PatchSet.JOB, PatchChoice.ALL, 30, 0, 1),
            ScoredFixture.limit("paper", PatchSet.JOB, PatchChoice.SUBSTRATE, 1e-6, 0, 1))) {
      assertThat(mend(STRIP, errors, other).words())
          .as(other.name())
          .noneMatch(sentence -> sentence.contains("reach"));
    }
  }

  private static Lab aim(String ink, double tint) {
    return StraightProof.aim(StraightPress.one(ink, tint));
  }

  private static Limit limit(String name, Metric metric, Statistic statistic, double limit) {
    return new Limit(
        name, PatchSet.JOB, PatchChoice.ALL, "", metric, statistic, limit, 0, 1, "test", "rule");
  }

  private static Mender mender(List<Strip> strips, Limit... limits) {
    return new Mender(
        new Diagnosing(StraightPress.condition(), strips),
        new Scoring(new ToleranceSet("t", "test", List.of(limits)), true),
        300);
  }

  private static Mending mend(Strip strip, double[] errors, Limit... limits) throws InputException {
    return mender(List.of(strip), limits).mend(List.of(StraightProof.read(strip, errors)));
  }
}
