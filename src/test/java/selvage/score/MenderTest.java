package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import selvage.color.Correction;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.strip.Patch;
import selvage.strip.Strip;

class MenderTest {
  private static final Strip STRIP = ProofFixture.strip("basic");
  private static final Diagnosing DIAGNOSING =
      new Diagnosing(ProofFixture.CONDITION, List.of(STRIP));

  /**
   * Tone ± 10 %, density ± 10 %, spot solids moved by about ΔE*ab 4, each ink with chance one half;
   * noise 0.2. What still fails are solids that no mixture within reach can mend.
   */
  @Tag("long")
  @Test
  void mend_failingRehearsals_nineInTenPassWhenReprinted() throws InputException {
    Scoring scoring = scoring();
    Mender mender = new Mender(DIAGNOSING, scoring, Mender.INK_LIMIT_PERCENT);
    Random random = new Random(11);
    int failing = 0;
    int mended = 0;
    int foretold = 0;
    for (int i = 0; i < 30; i++) {
      Drift drift = chance(random);
      MatchedStrip first = ProofFixture.read(STRIP, ProofFixture.device(STRIP, drift));
      if (scoring.score(first).verdict() != Verdict.FAIL) {
        continue;
      }
      failing++;
      Mending mending = mender.mend(List.of(first));
      ProofScore again = scoring.score(reprint(drift, mending.correction()));
      mended += again.verdict() == Verdict.PASS ? 1 : 0;
      foretold += again.verdict() == mending.predicted().get(0).verdict() ? 1 : 0;
    }
    assertThat(failing).isGreaterThan(20);
    assertThat(mended).as("of %d", failing).isGreaterThanOrEqualTo((9 * failing + 9) / 10);
    assertThat(foretold).as("of %d", failing).isGreaterThanOrEqualTo((9 * failing + 9) / 10);
  }

  @Test
  void mend_magentaHeavy_curveIsTheReverseAndStaysWithinTheInkLimit() throws InputException {
    Drift drift = tone("Magenta", 8);
    MatchedStrip matched = ProofFixture.read(STRIP, ProofFixture.device(STRIP, drift));
    Mending mending = new Mender(DIAGNOSING, scoring(), 300).mend(List.of(matched));
    Correction correction = mending.correction();
    double sent = correction.byCurves(InkMixture.cmyk(0, 50, 0, 0)).cmyk()[1];
    double printed = sent + 4 * 0.08 * sent * (100 - sent) / 100;
    assertThat(printed).isBetween(49.0, 51.0);
    for (Patch patch : STRIP.patches()) {
      assertThat(correction.of(patch.mixture()).totalPercent())
          .isLessThanOrEqualTo(Math.max(300, patch.mixture().totalPercent()) + 0.01);
    }
    assertThat(mending.predicted().get(0).verdict()).isEqualTo(Verdict.PASS);
    assertThat(mending.words().get(0)).contains("would probably pass");
  }

  @Test
  void mend_spotSolidOff_patchGetsAMixtureThatComesInside() throws InputException {
    Drift drift =
        new Drift(
            Map.of(),
            Map.of(),
            LabShift.NONE,
            Map.of("Night Pine", new LabShift(3, 4, 2)),
            LabShift.NONE,
            0.2,
            5);
    MatchedStrip matched = ProofFixture.read(STRIP, ProofFixture.device(STRIP, drift));
    Mending mending =
        new Mender(DIAGNOSING, scoring(), Mender.INK_LIMIT_PERCENT).mend(List.of(matched));
    PatchMend solid = mending.patches().get(0);
    assertThat(solid.patch().mixture())
        .isEqualTo(InkMixture.ofPercents(Map.of("Night Pine", 100.0)));
    assertThat(solid.de00Now()).isGreaterThan(solid.limit());
    assertThat(solid.de00After()).isLessThan(solid.limit());
    ProofScore again = scoring().score(reprint(drift, mending.correction()));
    for (ScoredPatch patch : again.patches()) {
      if (patch.patch().id().equals(solid.patch().id())) {
        assertThat(Math.abs(patch.de00() - solid.de00After())).isLessThan(0.8);
      }
    }
  }

  @Test
  void mend_paperOff_saysThatNoInkMendsIt() throws InputException {
    Drift drift =
        new Drift(Map.of(), Map.of(), new LabShift(-2, 0, 5), Map.of(), LabShift.NONE, 0.2, 5);
    MatchedStrip matched = ProofFixture.read(STRIP, ProofFixture.device(STRIP, drift));
    Mending mending =
        new Mender(DIAGNOSING, scoring(), Mender.INK_LIMIT_PERCENT).mend(List.of(matched));
    assertThat(mending.predicted().get(0).verdict()).isEqualTo(Verdict.FAIL);
    assertThat(mending.words()).anyMatch(sentence -> sentence.contains("take the right paper"));
  }

  private static Scoring scoring() throws InputException {
    return new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false);
  }

  private static Drift tone(String ink, double percent) {
    return new Drift(
        Map.of(ink, percent), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0.2, 3);
  }

  private static Drift chance(Random random) {
    Map<String, Double> tone = new TreeMap<>();
    Map<String, Double> density = new TreeMap<>();
    Map<String, LabShift> spots = new TreeMap<>();
    for (String ink : ProofFixture.INKS) {
      if (random.nextBoolean()) {
        tone.put(ink, 20 * random.nextDouble() - 10);
      }
      if (random.nextBoolean()) {
        density.put(ink, 20 * random.nextDouble() - 10);
      }
    }
    for (String ink : List.of("Dune Red", "Night Pine")) {
      if (random.nextBoolean()) {
        spots.put(
            ink,
            new LabShift(
                2 * random.nextGaussian(), 3 * random.nextGaussian(), 3 * random.nextGaussian()));
      }
    }
    return new Drift(tone, density, LabShift.NONE, spots, LabShift.NONE, 0.2, random.nextLong());
  }

  private static MatchedStrip reprint(Drift drift, Correction correction) {
    Drift again =
        new Drift(
            drift.tone(),
            drift.density(),
            drift.paper(),
            drift.spots(),
            drift.allSpots(),
            drift.noise(),
            drift.seed() + 1);
    return ProofFixture.read(STRIP, ProofFixture.device(STRIP, again).through(correction));
  }
}
