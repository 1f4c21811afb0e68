package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

class StripChoiceTest {
  private static final Strip FIRST = StripFixture.strip("KM7T-90QA", 1);
  private static final Strip SECOND = StripFixture.strip("XX00-Q1ZZ", 2);
  private static final StripsFile BOTH = StripFixture.file(FIRST, SECOND);

  @Test
  void match_idInHeader_findsItsStrip() throws InputException {
    for (Map<String, String> header :
        List.of(
            Map.of("STRIP_ID", "xx00-q1zz"),
            Map.of("DESCRIPTOR", "proof 12, strip XX00-Q1ZZ, second try"))) {
      assertThat(strips(StripChoice.ANY, BOTH, measurement(header, FIRST))).containsExactly(SECOND);
    }
  }

  @Test
  void match_idOfAnotherProof_refused() {
    Measurement other = measurement(Map.of("STRIP_ID", "AAAA-AAAA"), FIRST);
    assertThatThrownBy(() -> strips(StripChoice.ANY, StripFixture.file(FIRST), other))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("measurement of another proof");
  }

  @Test
  void match_headerAndWishDiffer_refused() {
    Measurement second = measurement(Map.of("STRIP_ID", "XX00-Q1ZZ"), FIRST);
    assertThatThrownBy(() -> strips(page(1), BOTH, second))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("m.txt is of strip XX00-Q1ZZ (page 2)");
  }

  @Test
  void match_severalTablesAndWish_othersLeftOut() throws InputException {
    List<MatchedStrip> matched =
        page(2)
            .match(
                "s.json",
                BOTH,
                List.of(
                    measurement(Map.of("STRIP_ID", "KM7T-90QA"), FIRST),
                    measurement(Map.of("STRIP_ID", "XX00-Q1ZZ"), FIRST)));
    assertThat(matched).extracting(MatchedStrip::strip).containsExactly(SECOND);
    assertThat(matched.get(0).findings().get(0).code()).isEqualTo("other-strips-left-out");
  }

  @Test
  void match_wishAlone_taken() throws InputException {
    assertThat(strips(page(2), BOTH, measurement(Map.of(), FIRST))).containsExactly(SECOND);
    StripChoice byId = new StripChoice(Optional.of("km7t-90qa"), OptionalInt.empty(), false);
    assertThat(strips(byId, BOTH, measurement(Map.of(), FIRST))).containsExactly(FIRST);
  }

  @Test
  void match_nothingTells_refusedNamingCandidates() {
    assertThatThrownBy(() -> strips(StripChoice.ANY, BOTH, measurement(Map.of(), FIRST)))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("KM7T-90QA (page 1), strip XX00-Q1ZZ (page 2)")
        .hasMessageContaining("--page");
  }

  @Test
  void match_onlyOneFits_taken() throws InputException {
    Strip longer =
        StripFixture.empty()
            .job("flat", Map.of("Cyan", 100.0), new Lab(55, -37, -50), "condition", 50)
            .job("flat", Map.of("Cyan", 50.0), new Lab(75, -17, -25), "condition", 50)
            .build("TTTT-0000", 2);
    StripsFile file = StripFixture.file(FIRST, longer);
    assertThat(strips(StripChoice.ANY, file, measurement(Map.of(), longer)))
        .containsExactly(longer);
    assertThat(strips(StripChoice.ANY, file, measurement(Map.of(), FIRST))).containsExactly(FIRST);
  }

  @Test
  void match_idsFitBothButNamesOnlyOne_taken() throws InputException {
    Strip other =
        StripFixture.empty()
            .job("flat", Map.of("Cyan", 100.0), new Lab(55, -37, -50), "condition", 50)
            .job("flat", Map.of("Black", 50.0), new Lab(75, 0, 0), "condition", 50)
            .build("TTTT-0000", 1);
    Strip same =
        StripFixture.empty()
            .job("flat", Map.of("Cyan", 100.0), new Lab(55, -37, -50), "condition", 50)
            .job("flat", Map.of("Black", 40.0), new Lab(80, 0, 0), "condition", 50)
            .build("TTTT-0001", 2);
    List<Reading> named = new ArrayList<>();
    for (Reading reading : measurement(Map.of(), same).readings()) {
      String inks = named.isEmpty() ? "Cyan 100" : "Black 40";
      named.add(new Reading(reading.id(), inks, Map.of(), reading.lab(), reading.line()));
    }
    Measurement measurement =
        new Measurement(
            "m.txt",
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            false,
            named,
            List.of());
    assertThat(strips(StripChoice.ANY, StripFixture.file(other, same), measurement))
        .containsExactly(same);
  }

  @Test
  void candidates_noSuchStrip_refusedWithList() {
    assertThatThrownBy(() -> page(3).candidates("s.json", BOTH))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "s.json: expected a strip of page 3, found strip KM7T-90QA (page 1), strip XX00-Q1ZZ"
                + " (page 2); choose one of them");
  }

  private static StripChoice page(int page) {
    return new StripChoice(Optional.empty(), OptionalInt.of(page), false);
  }

  private static List<Strip> strips(StripChoice choice, StripsFile file, Measurement measurement)
      throws InputException {
    return choice.match("s.json", file, List.of(measurement)).stream()
        .map(MatchedStrip::strip)
        .toList();
  }

  private static Measurement measurement(Map<String, String> header, Strip strip) {
    List<Reading> readings = new ArrayList<>();
    for (SheetPatch patch : SheetPatch.of(strip)) {
      readings.add(
          new Reading(
              patch.first().id(), "", Map.of(), patch.first().aim().lab(), readings.size() + 1));
    }
    return new Measurement(
        "m.txt",
        header,
        MeasurementCondition.UNKNOWN,
        Measurement.LabOrigin.LAB,
        false,
        readings,
        List.of());
  }
}
