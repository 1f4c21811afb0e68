package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.Strip;

class MatchingTest {
  private static final Strip STRIP = StripFixture.strip("KM7T-90QA", 1);
  private static final List<SheetPatch> SHEET = SheetPatch.of(STRIP);

  @Test
  void match_byId_everyPatchItsReading() throws InputException {
    List<Reading> shuffled = readings(i -> SHEET.get(i).first().id());
    Collections.reverse(shuffled);
    MatchedStrip matched = match(shuffled);
    assertThat(matched.alignment()).isEqualTo(new Alignment("by-id", 1));
    assertMatched(matched);
  }

  @Test
  void match_patchOfBothSets_takesEitherId() throws InputException {
    for (String id : List.of("J01", "S01", "s01")) {
      assertMatched(match(readings(i -> i == 0 ? id : SHEET.get(i).first().id())));
    }
  }

  @Test
  void match_patchOfBothSetsReadTwice_eachItsOwn() throws InputException {
    List<Reading> readings = readings(i -> SHEET.get(i).first().id());
    readings.add(new Reading("S01", "", Map.of(), new Lab(53, -36, -49), 99));
    MatchedStrip matched = match(readings);
    assertThat(lab(matched, "J01")).isEqualTo(aimPlusOne(0));
    assertThat(lab(matched, "S01")).isEqualTo(new Lab(53, -36, -49));
  }

  @Test
  void match_renumberedIds_byName() throws InputException {
    MatchedStrip matched =
        match(readings(i -> "" + (i + 1), i -> SHEET.get(i).first().id(), i -> Map.of()));
    assertThat(matched.alignment().how()).isEqualTo("by-name");
    assertMatched(matched);
  }

  @Test
  void match_mixtureAsName_byNameEqualOnesInOrder() throws InputException {
    MatchedStrip matched =
        match(readings(i -> "" + (i + 1), i -> SHEET.get(i).mixture().toString(), i -> Map.of()));
    assertThat(matched.alignment().how()).isEqualTo("by-name");
    assertMatched(matched);
  }

  @Test
  void match_tintsOnly_byDevice() throws InputException {
    MatchedStrip matched =
        match(readings(i -> "", i -> "", i -> tints(SHEET.get(i).mixture(), 0.4)));
    assertThat(matched.alignment().how()).isEqualTo("by-device");
    assertMatched(matched);
  }

  @Test
  void match_nothingToGoBy_byOrder() throws InputException {
    MatchedStrip matched = match(readings(i -> "" + (i + 1)));
    assertThat(matched.alignment().how()).isEqualTo("by-order");
    assertThat(matched.alignment().confidence()).isCloseTo(0.98, within(0.02));
    assertThat(matched.findings()).isEmpty();
    assertMatched(matched);
  }

  @Test
  void match_readBackwards_turnedRoundWithWarning() throws InputException {
    List<Reading> readings = readings(i -> "");
    Collections.reverse(readings);
    MatchedStrip matched = match(readings);
    assertThat(matched.alignment().how()).isEqualTo("by-order-reversed");
    assertThat(codes(matched)).containsExactly("read-backwards");
    assertMatched(matched);
  }

  @Test
  void match_readingBegunInTheMiddle_foundByColors() throws InputException {
    List<Reading> readings = readings(i -> "");
    Collections.rotate(readings, 3);
    MatchedStrip matched = match(readings);
    assertThat(matched.alignment().how()).isEqualTo("by-rows");
    assertThat(codes(matched)).containsExactly("rows-read-twice");
    assertMatched(matched);
  }

  @Test
  void match_otherOrderAltogether_refusedAsUnsure() {
    List<Reading> readings = readings(i -> "");
    Collections.shuffle(readings, new Random(3));
    assertThatThrownBy(() -> match(readings))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("do not tell for sure which is which");
  }

  @Test
  void match_oneMissedWithoutIds_refusedByItsName() throws InputException {
    List<Reading> readings = readings(i -> "" + i);
    readings.remove(6);
    assertThatThrownBy(() -> match(readings))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found none for S04 (Yellow 100); measure");
    MatchedStrip matched = Matching.match(STRIP, measurement(readings), true);
    assertThat(matched.readings()).hasSize(10);
    assertThat(lab(matched, "S05")).isEqualTo(aimPlusOne(7));
  }

  @Test
  void match_oneReadTwiceWithoutIds_averagedAndNamed() throws InputException {
    List<Reading> readings = readings(i -> "" + i);
    Lab again = new Lab(aimPlusOne(5).l() + 1, aimPlusOne(5).a(), aimPlusOne(5).b());
    readings.add(6, new Reading("", "", Map.of(), again, 99));
    MatchedStrip matched = match(readings);
    assertThat(codes(matched)).containsExactly("patch-read-twice", "readings-averaged");
    assertThat(matched.findings().get(0).text()).startsWith("m.txt:99: taken to be S03");
    assertThat(lab(matched, "S03").l()).isCloseTo(aimPlusOne(5).l() + 0.5, within(1e-9));
    assertThat(matched.repeatability().orElseThrow().readings()).isEqualTo(2);
  }

  @Test
  void match_idsGivenFromTheOtherEnd_colorsTaken() throws InputException {
    List<Reading> readings = readings(i -> SHEET.get(9 - i).first().id());
    Collections.reverse(readings);
    List<Reading> renumbered = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      Reading one = readings.get(i);
      renumbered.add(new Reading(one.id(), "", Map.of(), one.lab(), 11 + i));
    }
    MatchedStrip matched = match(renumbered);
    assertThat(codes(matched)).containsExactly("ids-do-not-fit-colors", "read-backwards");
    assertMatched(matched);
  }

  @Test
  void match_idsRightColorsOfAnotherStrip_refused() {
    List<Reading> readings = readings(i -> SHEET.get(i).first().id());
    List<Reading> other = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      Lab lab = readings.get((i * 7 + 3) % 10).lab();
      other.add(new Reading(readings.get(i).id(), "", Map.of(), lab, 11 + i));
    }
    assertThatThrownBy(() -> match(other))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("as those of another strip do");
  }

  @Test
  void match_patchMissing_refusedByNameUnlessAllowed() throws InputException {
    List<Reading> readings = readings(i -> SHEET.get(i).first().id()).subList(1, 10);
    assertThatThrownBy(() -> match(readings))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found none for J01 (Cyan 100); measure")
        .hasMessageContaining("--allow-missing");
    MatchedStrip matched = Matching.match(STRIP, measurement(readings), true);
    assertThat(matched.readings()).hasSize(9);
    assertThat(codes(matched)).containsExactly("patches-missing");
  }

  @Test
  void match_patchTwice_refusedWithBothLines() {
    List<Reading> readings = readings(i -> SHEET.get(Math.min(i, 8)).first().id());
    assertThatThrownBy(() -> match(readings))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:20: S06: expected one reading a patch")
        .hasMessageContaining("line 19");
  }

  @Test
  void match_readingsOfNoPatch_leftOutWithWarning() throws InputException {
    List<Reading> readings = readings(i -> SHEET.get(i).first().id());
    readings.add(new Reading("X1", "", Map.of(), new Lab(1, 2, 3), 99));
    assertThat(codes(match(readings))).containsExactly("readings-left-out");
  }

  @Test
  void match_idsRightTintsOfAnotherStrip_refused() {
    List<Reading> readings =
        readings(
            i -> SHEET.get(i).first().id(),
            i -> "",
            i -> tints(i == 3 ? InkMixture.PAPER : SHEET.get(i).mixture(), 0));
    assertThatThrownBy(() -> match(readings))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("J04: expected Magenta 40.0 %, found 0.0 %");
  }

  @Test
  void match_fileStatesCmykOnly_spotPatchesNotCompared() throws InputException {
    List<Reading> readings =
        readings(
            i -> SHEET.get(i).first().id(),
            i -> "",
            i -> {
              Map<String, Double> tints = tints(SHEET.get(i).mixture(), 0);
              if (tints.remove("Dune Red") > 0) {
                tints.put("Magenta", 90.0);
              }
              return tints;
            });
    assertMatched(match(readings));
  }

  @Test
  void match_polarized_refused() {
    MeasurementCondition polarized =
        new MeasurementCondition(
            Optional.of("M3"), Optional.empty(), Optional.empty(), Optional.empty());
    Measurement measurement = measurement(readings(i -> SHEET.get(i).first().id()), polarized);
    assertThatThrownBy(() -> Matching.match(STRIP, measurement, true))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found M3");
  }

  private static Map<String, Double> tints(InkMixture mixture, double off) {
    Map<String, Double> tints = new TreeMap<>();
    for (String name : List.of("Cyan", "Magenta", "Yellow", "Black", "Dune Red")) {
      double percent = mixture.percent(Colorant.named(name));
      tints.put(name, percent == 0 || percent == 100 ? percent : percent + off);
    }
    return tints;
  }

  private static Lab aimPlusOne(int i) {
    Lab aim = SHEET.get(i).first().aim().lab();
    return new Lab(aim.l() + (i % 2 == 0 ? 1 : -1), aim.a(), aim.b() + i / 100.0);
  }

  private static void assertMatched(MatchedStrip matched) {
    assertThat(matched.readings()).hasSize(11);
    for (int i = 0; i < SHEET.size(); i++) {
      for (var patch : SHEET.get(i).patches()) {
        assertThat(lab(matched, patch.id())).as(patch.id()).isEqualTo(aimPlusOne(i));
      }
    }
  }

  private static Lab lab(MatchedStrip matched, String id) {
    return matched.readings().stream()
        .filter(reading -> reading.patch().id().equals(id))
        .findFirst()
        .orElseThrow()
        .reading()
        .lab();
  }

  private static List<Reading> readings(IntFunction<String> id) {
    return readings(id, i -> "", i -> Map.of());
  }

  private static List<Reading> readings(
      IntFunction<String> id, IntFunction<String> name, IntFunction<Map<String, Double>> tints) {
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < SHEET.size(); i++) {
      readings.add(new Reading(id.apply(i), name.apply(i), tints.apply(i), aimPlusOne(i), 11 + i));
    }
    return readings;
  }

  private static Measurement measurement(List<Reading> readings) {
    return measurement(readings, MeasurementCondition.UNKNOWN);
  }

  private static Measurement measurement(List<Reading> readings, MeasurementCondition condition) {
    return new Measurement(
        "m.txt", Map.of(), condition, Measurement.LabOrigin.LAB, false, readings, List.of());
  }

  private static MatchedStrip match(List<Reading> readings) throws InputException {
    return Matching.match(STRIP, measurement(readings), false);
  }

  private static List<String> codes(MatchedStrip matched) {
    return matched.findings().stream().map(Finding::code).toList();
  }
}
