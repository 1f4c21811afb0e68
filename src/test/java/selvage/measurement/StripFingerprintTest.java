package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.strip.Strip;

/** Strips of three greys with the same ids; one strip's are lighter than the other's. */
class StripFingerprintTest {
  /**
   * Readings off by one figure from the first strip and by another from the second: the second must
   * fit half as badly again, and by 1.5 more.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 1.6, true", "0, 1.4, false",
    "2, 3.6, true", "2, 3.4, false",
    "4, 6.1, true", "4, 5.9, false",
    "5.9, 4, false"
  })
  void bestFit_twoStrips_theNearerIfClearlySo(double first, double second, boolean clear)
      throws InputException {
    List<Strip> both = List.of(strip("AAAA-0000", 1, 0), strip("BBBB-0000", 2, first + second));
    Measurement measurement = measurement(3, first, MeasurementCondition.UNKNOWN);
    if (clear) {
      assertThat(StripFingerprint.bestFit(both, measurement).strip()).isSameAs(both.get(0));
      assertThat(StripFingerprint.bestFit(List.of(both.get(1), both.get(0)), measurement).strip())
          .isSameAs(both.get(0));
    } else {
      assertThatThrownBy(() -> StripFingerprint.bestFit(both, measurement))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("found nothing that tells; nearest are ")
          .hasMessageEndingWith("; choose with --strip or --page");
    }
  }

  /** The three nearest are named, nearest first. */
  @Test
  void bestFit_severalAboutAsWell_threeNamed() {
    List<Strip> four =
        List.of(
            strip("AAAA-0000", 1, 3),
            strip("BBBB-0000", 2, 1),
            strip("CCCC-0000", 3, -2),
            strip("DDDD-0000", 4, 4));
    assertThatThrownBy(
            () -> StripFingerprint.bestFit(four, measurement(3, 0, MeasurementCondition.UNKNOWN)))
        .hasMessageContaining(
            "nearest are BBBB-0000 (mean ΔE*ab 1.0), CCCC-0000 (mean ΔE*ab 2.0), AAAA-0000 (mean"
                + " ΔE*ab 3.0); choose");
  }

  @Test
  void bestFit_onlyCandidate_takenWhateverItsFit() throws InputException {
    Strip only = strip("AAAA-0000", 1, 5);
    assertThat(
            StripFingerprint.bestFit(List.of(only), measurement(3, 0, MeasurementCondition.UNKNOWN))
                .strip())
        .isSameAs(only);
  }

  /** A strip of as many patches as were read comes before one that has more or fewer. */
  @ParameterizedTest
  @CsvSource({"2", "4"})
  void bestFit_oneIsReadWhole_taken(int others) throws InputException {
    Strip whole = strip("AAAA-0000", 1, 4);
    StripFixture fixture = StripFixture.empty();
    for (int i = 0; i < others; i++) {
      fixture.job("flat", Map.of("Black", 20.0 + 20 * i), grey(80 - 20 * i), "condition", 10);
    }
    Strip nearer = fixture.build("BBBB-0000", 2);
    assertThat(
            StripFingerprint.bestFit(
                    List.of(nearer, whole), measurement(3, 0, MeasurementCondition.UNKNOWN))
                .strip())
        .isSameAs(whole);
  }

  /** Two strips of the same greys: the one whose inks the names state, all of them. */
  @Test
  void bestFit_namesAreTheInksOfOne_taken() throws InputException {
    Strip first = strip("AAAA-0000", 1, 0);
    Strip second =
        StripFixture.empty()
            .job("flat", Map.of("Black", 20.0), grey(80), "condition", 10)
            .job("flat", Map.of("Cyan", 40.0), grey(60), "condition", 10)
            .job("flat", Map.of("Black", 60.0), grey(40), "condition", 10)
            .build("BBBB-0000", 2);
    for (Strip named : List.of(first, second)) {
      List<Reading> readings = new ArrayList<>();
      for (SheetPatch patch : SheetPatch.of(named)) {
        readings.add(
            new Reading(
                patch.first().id(),
                patch.mixture().toString(),
                Map.of(),
                patch.first().aim().lab(),
                readings.size() + 1));
      }
      Measurement measurement =
          new Measurement(
              "m.txt",
              Map.of(),
              MeasurementCondition.UNKNOWN,
              Measurement.LabOrigin.LAB,
              false,
              readings,
              List.of());
      assertThat(StripFingerprint.bestFit(List.of(first, second), measurement).strip())
          .isSameAs(named);
    }
    assertThatThrownBy(
            () ->
                StripFingerprint.bestFit(
                    List.of(first, second), measurement(3, 0, MeasurementCondition.UNKNOWN)))
        .hasMessageContaining("found nothing that tells");
  }

  /** Where no strip can be assigned, the last reason is told. */
  @Test
  void bestFit_noneFits_reasonTold() {
    MeasurementCondition polarized =
        new MeasurementCondition(
            Optional.of("M3"), Optional.empty(), Optional.empty(), Optional.empty());
    assertThatThrownBy(
            () ->
                StripFingerprint.bestFit(
                    List.of(strip("AAAA-0000", 1, 0), strip("BBBB-0000", 2, 9)),
                    measurement(3, 0, polarized)))
        .hasMessageContaining("found nothing that tells; choose with --strip or --page (m.txt:")
        .hasMessageContaining("polarizing filter");
  }

  /** Greys of L* 80, 60, 40 and so much more. */
  private static Strip strip(String id, int page, double lighter) {
    StripFixture fixture = StripFixture.empty();
    for (int i = 0; i < 3; i++) {
      fixture.job(
          "flat", Map.of("Black", 20.0 + 20 * i), grey(80 - 20 * i + lighter), "condition", 10);
    }
    return fixture.build(id, page);
  }

  private static Measurement measurement(
      int count, double lighter, MeasurementCondition condition) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      readings.add(new Reading("J0" + (i + 1), "", Map.of(), grey(80 - 20 * i + lighter), i + 1));
    }
    return new Measurement(
        "m.txt", Map.of(), condition, Measurement.LabOrigin.LAB, false, readings, List.of());
  }

  private static Lab grey(double l) {
    return new Lab(l, 0, 0);
  }
}
