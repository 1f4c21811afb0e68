package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Repeatability.OddReading;
import selvage.strip.Strip;

/**
 * Several files of a strip of four patches, of which a grey spreads. About L* 50 the lightness
 * weight of CIEDE2000 is 1 + 0.015 (L* − 50)²/√(20 + (L* − 50)²), so that small steps of L* are
 * ΔE00 of the same size: spreads are worked by hand.
 */
class RepeatsTest {
  private static final Strip STRIP =
      StripFixture.empty()
          .job("flat", Map.of("Black", 40.0), new Lab(50, 0, 0), "condition", 100)
          .standard("solid", Map.of("Cyan", 100.0), new Lab(50, -30, -40))
          .standard("solid", Map.of("Yellow", 100.0), new Lab(89, -5, 93))
          .standard("substrate", Map.of(), new Lab(95, 0, -2))
          .build("KM7T-90QA", 1);

  @Test
  void repeatability_oneReadingEach_none() throws InputException {
    assertThat(match(file("a.txt", 50, 50)).repeatability()).isEmpty();
  }

  /** J01: 49.5 and 50.5, the others twice alike: differences 0.5, 0.5 and six times 0. */
  @Test
  void repeatability_twoFiles_meanGreatestAndPooledDeviation() throws InputException {
    MatchedStrip matched = match(file("a.txt", 49.5, 50), file("b.txt", 50.5, 50));
    Repeatability found = matched.repeatability().orElseThrow();
    assertThat(found.patches()).isEqualTo(4);
    assertThat(found.readings()).isEqualTo(8);
    assertThat(found.meanDe00()).isCloseTo(0.125, within(1e-3));
    assertThat(found.maxDe00()).isCloseTo(0.5, within(1e-3));
    assertThat(found.deviationDe00()).isCloseTo(Math.sqrt(0.5 / 4), within(1e-3));
    assertThat(found.deviationDe76()).isCloseTo(Math.sqrt(0.5 / 4), within(1e-9));
    assertThat(found.sources()).containsExactly("a.txt", "b.txt");
    assertThat(found.odd()).isEmpty();
    assertThat(found.spreads())
        .extracting(Repeatability.PatchSpread::patchId)
        .containsExactly("J01", "S01", "S02", "S03");
    assertThat(found.spreads().get(0).readings()).isEqualTo(2);
    assertThat(found.spreads().get(0).maxDe00()).isCloseTo(0.5, within(1e-3));
    assertThat(found.spreads().get(1).maxDe00()).isZero();
    assertThat(matched.readings().get(0).reading().lab()).isEqualTo(new Lab(50, 0, 0));
  }

  /** 49.8, 50.2, 50.0 and a 56: the 56 is named, the mean is that of the three. */
  @Test
  void repeatability_oneFarOff_namedAndLeftOut() throws InputException {
    MatchedStrip matched =
        match(
            file("a.txt", 49.8, 50),
            file("b.txt", 50.2, 50),
            file("c.txt", 56, 50),
            file("d.txt", 50, 50));
    Repeatability found = matched.repeatability().orElseThrow();
    assertThat(found.odd()).hasSize(1);
    OddReading odd = found.odd().get(0);
    assertThat(odd.patchId()).isEqualTo("J01");
    assertThat(odd.source()).isEqualTo("c.txt");
    assertThat(odd.line()).isEqualTo(10);
    // mean L* 53: 6 / (1 + 0.015·9/√29) = 5.853
    assertThat(odd.de00()).isCloseTo(5.853, within(0.001));
    assertThat(found.readings()).isEqualTo(15);
    assertThat(matched.readings().get(0).reading().lab().l()).isCloseTo(50, within(1e-9));
    assertThat(matched.findings()).extracting(Finding::code).contains("odd-reading");
  }

  /** Two that differ by more than ΔE00 2: nobody can say which is right, so their mean counts. */
  @Test
  void repeatability_twoThatDiffer_bothCountAndItIsSaid() throws InputException {
    MatchedStrip matched = match(file("a.txt", 48.9, 50), file("b.txt", 51.1, 50));
    assertThat(matched.findings()).extracting(Finding::code).contains("repeats-differ");
    assertThat(matched.repeatability().orElseThrow().maxDe00()).isCloseTo(1.1, within(0.01));
    MatchedStrip near = match(file("a.txt", 49.1, 50), file("b.txt", 50.9, 50));
    assertThat(near.findings()).extracting(Finding::code).doesNotContain("repeats-differ");
  }

  private static MatchedStrip match(Measurement... files) throws InputException {
    return StripChoice.ANY.match("s.json", StripFixture.file(STRIP), List.of(files)).get(0);
  }

  private static Measurement file(String name, double job, double standard) {
    List<Reading> readings = new ArrayList<>();
    readings.add(new Reading("J01", "", Map.of(), new Lab(job, 0, 0), 10));
    readings.add(new Reading("S01", "", Map.of(), new Lab(standard, -30, -40), 11));
    readings.add(new Reading("S02", "", Map.of(), new Lab(89, -5, 93), 12));
    readings.add(new Reading("S03", "", Map.of(), new Lab(95, 0, -2), 13));
    return new Measurement(
        name,
        Map.of(),
        MeasurementCondition.UNKNOWN,
        Measurement.LabOrigin.LAB,
        false,
        readings,
        List.of());
  }
}
