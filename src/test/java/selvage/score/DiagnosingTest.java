package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Matching;
import selvage.measurement.Measurement;
import selvage.measurement.Reading;
import selvage.strip.Strip;

class DiagnosingTest {
  private static final Strip STRIP = ProofFixture.strip("basic");

  /** Right in 95 % of cases; a case is an ink of a rehearsal. */
  @Tag("long")
  @ParameterizedTest
  @ValueSource(strings = {"basic", "full"})
  void diagnose_manyDriftsByChance_toneWithin1AndDensityWithin2Percent(String standard) {
    Strip strip = ProofFixture.strip(standard);
    Diagnosing diagnosing = new Diagnosing(ProofFixture.CONDITION, List.of(strip));
    Random random = new Random(7);
    int cases = 0;
    int tones = 0;
    int densities = 0;
    int rehearsals = 0;
    for (int i = 0; i < 100; i++) {
      Drift drift = ProofFixture.chance(random, 0.2);
      Diagnosis found = diagnose(diagnosing, strip, drift);
      int right = 0;
      for (String ink : ProofFixture.INKS) {
        cases++;
        double tone = drift.tone().getOrDefault(ink, 0.0);
        double density = drift.density().getOrDefault(ink, 0.0);
        boolean toneRight = Math.abs(value(found, Cause.Kind.TONE, ink) - tone) <= 1;
        boolean densityRight = Math.abs(value(found, Cause.Kind.DENSITY, ink) - density) <= 2;
        tones += toneRight ? 1 : 0;
        densities += densityRight ? 1 : 0;
        right += toneRight && densityRight ? 1 : 0;
      }
      rehearsals += right == ProofFixture.INKS.size() ? 1 : 0;
    }
    assertThat(tones).as("tones of %d", cases).isGreaterThanOrEqualTo(cases * 95 / 100);
    assertThat(densities).as("densities of %d", cases).isGreaterThanOrEqualTo(cases * 95 / 100);
    assertThat(rehearsals).as("rehearsals of 100 with every ink right").isGreaterThanOrEqualTo(95);
  }

  @Tag("long")
  @Test
  void diagnose_confidenceIntervals_holdTheTruthAsOftenAsTheySay() {
    Diagnosing diagnosing = new Diagnosing(ProofFixture.CONDITION, List.of(STRIP));
    int held = 0;
    for (int seed = 0; seed < 200; seed++) {
      Diagnosis found = diagnose(diagnosing, STRIP, tone("Magenta", 4, 0.5, seed));
      FoundCause cause = cause(found, Cause.Kind.TONE, "Magenta");
      held += Math.abs(cause.values().get(0) - 4) <= cause.margins().get(0) ? 1 : 0;
    }
    assertThat(held).isBetween(180, 199);
  }

  @Tag("long")
  @Test
  void diagnose_onlyNoise_findsNothing() {
    Diagnosing diagnosing = new Diagnosing(ProofFixture.CONDITION, List.of(STRIP));
    int none = 0;
    for (int seed = 0; seed < 100; seed++) {
      none += diagnose(diagnosing, STRIP, tone("Cyan", 0, 0.3, seed)).causes().isEmpty() ? 1 : 0;
    }
    assertThat(none).isGreaterThanOrEqualTo(93);
    assertThat(diagnose(diagnosing, STRIP, tone("Cyan", 0, 0.3, 1)).words().get(0))
        .startsWith("No systematic error");
  }

  @Test
  void diagnose_magentaHeavy_saysSoInWords() {
    Diagnosis found =
        diagnose(
            new Diagnosing(ProofFixture.CONDITION, List.of(STRIP)),
            STRIP,
            tone("Magenta", 4, 0.2, 3));
    assertThat(found.words().get(0))
        .matches("Magenta prints about [34]\\.\\d % too heavy in the mid-tones .* of the error\\.");
    assertThat(found.causes().get(0).share()).isGreaterThan(0.9);
    assertThat(found.unexplainedShare()).isLessThan(0.1);
  }

  @Test
  void diagnose_paperAndRecipe_recovered() {
    LabShift paper = new LabShift(-1, 0.5, 3);
    LabShift recipe = new LabShift(2, -4, 3);
    Drift drift =
        new Drift(Map.of(), Map.of(), paper, Map.of("Dune Red", recipe), LabShift.NONE, 0.2, 9);
    Diagnosis found =
        diagnose(new Diagnosing(ProofFixture.CONDITION, List.of(STRIP)), STRIP, drift);
    List<Double> sheet = cause(found, Cause.Kind.PAPER, "").values();
    assertThat(sheet.get(0)).isCloseTo(-1, within(0.4));
    assertThat(sheet.get(2)).isCloseTo(3, within(0.4));
    List<Double> solid = cause(found, Cause.Kind.RECIPE, "Dune Red").values();
    assertThat(solid.get(0)).isCloseTo(2, within(0.6));
    assertThat(solid.get(1)).isCloseTo(-4, within(0.6));
    assertThat(solid.get(2)).isCloseTo(3, within(0.6));
  }

  /** Errors of no cause: large and by chance, patch by patch. */
  @Test
  void diagnose_errorsOfNoCause_unexplained() {
    Diagnosis found =
        diagnose(
            new Diagnosing(ProofFixture.CONDITION, List.of(STRIP)), STRIP, tone("Cyan", 0, 6, 12));
    assertThat(found.unexplainedShare()).isGreaterThan(0.7);
    assertThat(String.join(" ", found.words())).containsIgnoringCase("unexplained");
  }

  @Test
  void diagnose_onePatchMisread_isNamedAndSpoilsNothing() throws Exception {
    MatchedStrip sound =
        ProofFixture.read(STRIP, ProofFixture.device(STRIP, tone("Cyan", 5, 0.2, 4)));
    List<Reading> readings = new ArrayList<>(sound.measurement().readings());
    Reading third = readings.get(2);
    readings.set(
        2,
        new Reading(
            third.id(),
            third.name(),
            Map.of(),
            new LabShift(12, 5, -7).applied(third.lab(), 1),
            third.line()));
    Measurement measurement =
        new Measurement(
            "m.txt",
            Map.of(),
            sound.measurement().condition(),
            Measurement.LabOrigin.LAB,
            true,
            readings,
            List.of());
    Diagnosis found =
        new Diagnosing(ProofFixture.CONDITION, List.of(STRIP))
            .diagnose(Matching.match(STRIP, measurement, false));
    assertThat(found.oddPatches()).containsExactly("J3");
    assertThat(value(found, Cause.Kind.TONE, "Cyan")).isCloseTo(5, within(0.4));
  }

  private static Drift tone(String ink, double percent, double noise, long seed) {
    return new Drift(
        Map.of(ink, percent), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, noise, seed);
  }

  private static Diagnosis diagnose(Diagnosing diagnosing, Strip strip, Drift drift) {
    return diagnosing.diagnose(ProofFixture.read(strip, ProofFixture.device(strip, drift)));
  }

  private static FoundCause cause(Diagnosis found, Cause.Kind kind, String ink) {
    return found.causes().stream()
        .filter(one -> one.cause().equals(new Cause(kind, ink)))
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    found.causes().stream()
                        .map(one -> one.cause().toString())
                        .collect(Collectors.joining("; "))));
  }

  private static double value(Diagnosis found, Cause.Kind kind, String ink) {
    return found.causes().stream()
        .filter(one -> one.cause().equals(new Cause(kind, ink)))
        .mapToDouble(one -> one.values().get(0))
        .sum();
  }
}
