package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;

class MetricTest {
  private static final Lab PAPER = new Lab(95, 0, 0);
  private static final Lab SOLID = new Lab(45, 0, 0);

  /** 3-4-12 off in L*, a*, b*; and a quarter turn at chroma 10: 2 · 10 · sin 45°. */
  @ParameterizedTest
  @CsvSource({
    "DE76, 50, 0, 0, 53, 4, -12, 13",
    "DCH, 50, 0, 0, 53, 3, -4, 5",
    "DL, 50, 0, 0, 47, 4, -12, 3",
    "DL, 50, 0, 0, 53, 4, -12, 3",
    "DH, 50, 10, 0, 50, 0, 10, 14.142136",
    "DH, 50, 0, 10, 50, 10, 0, 14.142136",
    "DE00, 50, 0, 0, 50, 0, 2, 1.9173",
  })
  void of_difference_byHand(
      Metric metric, double l, double a, double b, double l2, double a2, double b2, double size) {
    ScoredPatch patch = ScoredFixture.scored(Map.of(), new Lab(l, a, b), new Lab(l2, a2, b2), 0);
    assertThat(metric.of(patch)).isCloseTo(size, within(5e-3));
    assertThat(metric.appliesTo(patch)).isTrue();
    assertThat(metric.of(patch, new Lab(l, a, b))).isZero();
  }

  /** On greys V is L* three times over: L* 75 lies two fifths of the way from 95 to 45. */
  @Test
  void of_spotTint_toneValueLessThatOfItsAim() {
    ScoredPatch plain =
        ScoredFixture.scored(Map.of("Dune Red", 50.0), new Lab(70, 0, 0), new Lab(75, 0, 0), 0);
    assertThat(Metric.SCTV.appliesTo(plain)).isFalse();
    assertThat(plain.judgedBy(Metric.SCTV)).isFalse();
    assertThat(plain.sctvPercent()).isEmpty();
    ScoredPatch tint = plain.with(new ScoredPatch.Tone(new SpotTone(PAPER, SOLID), 50));
    assertThat(Metric.SCTV.appliesTo(tint)).isTrue();
    assertThat(tint.judgedBy(Metric.SCTV)).isTrue();
    assertThat(tint.sctvPercent().getAsDouble()).isCloseTo(40, within(1e-9));
    assertThat(tint.sctvAimPercent().getAsDouble()).isEqualTo(50);
    assertThat(Metric.SCTV.of(tint)).isCloseTo(10, within(1e-9));
    assertThat(Metric.SCTV.of(tint, new Lab(65, 0, 0))).isCloseTo(10, within(1e-9));
  }

  @Test
  void isDefined_solidNearThePaper_notBelowOne() {
    assertThat(new SpotTone(PAPER, new Lab(95, 0, 0)).isDefined()).isFalse();
    assertThat(new SpotTone(PAPER, new Lab(95, 4.31, 0)).isDefined()).isFalse();
    assertThat(new SpotTone(PAPER, new Lab(95, 4.32, 0)).isDefined()).isTrue();
  }

  /** Against a paper with a* 5, b* −5: V differs by 0.232 · 5 in X, by 0.58 · 10 in Z. */
  @Test
  void of_tintedPaper_differencesFromThePaper() {
    Lab paper = new Lab(95, 5, -5);
    SpotTone scale = new SpotTone(paper, new Lab(45, 5, -5));
    double solid = Math.sqrt(3) * 50;
    assertThat(scale.of(new Lab(95, 10, -5))).isCloseTo(100 * 1.16 / solid, within(1e-9));
    assertThat(scale.of(new Lab(95, 5, 5))).isCloseTo(100 * 5.8 / solid, within(1e-9));
  }

  /** A tint has a tone value only where its own solid and the paper were read. */
  @Test
  void addedTo_paperOrSolidMissing_noToneValue() {
    ScoredPatch paper = ScoredFixture.scored(Map.of(), PAPER, new Lab(94, 0, 0), 0);
    ScoredPatch solid = ScoredFixture.scored(Map.of("Dune Red", 100.0), SOLID, SOLID, 0);
    ScoredPatch tint =
        ScoredFixture.scored(Map.of("Dune Red", 50.0), new Lab(70, 0, 0), new Lab(70, 0, 0), 0);
    ScoredPatch other =
        ScoredFixture.scored(Map.of("Night Pine", 50.0), new Lab(70, 0, 0), new Lab(70, 0, 0), 0);
    List<ScoredPatch> all = List.of(paper, solid, tint, other);
    List<ScoredPatch> toned = new SpotTones(all).addedTo(all);
    assertThat(toned)
        .extracting(one -> one.tone().isPresent())
        .containsExactly(false, false, true, false);
    assertThat(toned.get(3)).isSameAs(other);
    assertThat(toned.get(2).sctvPercent().getAsDouble()).isCloseTo(2400 / 49.0, within(1e-9));
    assertThat(toned.get(2).sctvAimPercent().getAsDouble()).isCloseTo(50, within(1e-9));
    for (List<ScoredPatch> some : List.of(List.of(solid, tint), List.of(paper, tint))) {
      assertThat(new SpotTones(some).addedTo(some)).isEqualTo(some);
    }
    ScoredPatch faint = ScoredFixture.scored(Map.of("Dune Red", 100.0), SOLID, PAPER, 0);
    ScoredPatch aimless = ScoredFixture.scored(Map.of("Dune Red", 100.0), PAPER, SOLID, 0);
    for (ScoredPatch undefined : List.of(faint, aimless)) {
      ScoredPatch onPaper = ScoredFixture.scored(Map.of(), PAPER, PAPER, 0);
      List<ScoredPatch> some = List.of(onPaper, undefined, tint);
      assertThat(new SpotTones(some).addedTo(some).get(2).tone()).isEmpty();
    }
  }

  /** Of several papers and solids the first counts. */
  @Test
  void addedTo_severalSolids_theFirst() {
    ScoredPatch tint =
        ScoredFixture.scored(Map.of("Dune Red", 50.0), new Lab(70, 0, 0), new Lab(70, 0, 0), 0);
    List<ScoredPatch> all =
        List.of(
            ScoredFixture.scored(Map.of(), PAPER, PAPER, 0),
            ScoredFixture.scored(Map.of(), PAPER, new Lab(90, 0, 0), 0),
            ScoredFixture.scored(Map.of("Dune Red", 100.0), SOLID, SOLID, 0),
            ScoredFixture.scored(Map.of("Dune Red", 100.0), SOLID, new Lab(30, 0, 0), 0),
            tint);
    assertThat(new SpotTones(all).addedTo(all).get(4).sctvPercent().getAsDouble())
        .isCloseTo(50, within(1e-9));
  }

  @Test
  void words_everyMetric_signAndNote() {
    assertThat(Metric.DE00.sign()).isEqualTo("ΔE00");
    assertThat(Metric.DE00.note())
        .isEqualTo("ΔE00: CIEDE2000 with kL = kC = kH = 1 (ISO/CIE 11664-6)");
    assertThat(Metric.SCTV.sign()).isEqualTo("ΔSCTV");
    assertThat(Metric.values())
        .extracting(Metric::word)
        .containsExactly("de00", "de76", "dch", "dh", "dl", "sctv");
  }
}
