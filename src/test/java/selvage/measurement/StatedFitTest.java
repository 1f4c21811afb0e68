package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.strip.Patch;
import selvage.strip.Strip;

/** Greys only, so that every ΔE*ab is a difference of L*. */
class StatedFitTest {
  private static final double[] SIX = {20, 30, 40, 50, 60, 70};
  private static final double[] EIGHT = {10, 20, 30, 40, 50, 60, 70, 80};

  @Test
  void isDoubtful_sixReadingsMoreThanSixOff() {
    assertThat(fit(SIX, 25, 33, 46, 43, 68, 70).meanDe76()).isCloseTo(29 / 6.0, within(1e-9));
    assertThat(fit(SIX, 26, 36, 46, 56, 66, 76).isDoubtful()).isFalse();
    assertThat(fit(SIX, 26, 36, 46, 56, 66, 76.1).isDoubtful()).isTrue();
    double[] five = {20, 30, 40, 50, 60};
    assertThat(fit(five, 40, 50, 60, 70, 80).isDoubtful()).isFalse();
  }

  /** A row read from its other end: 50, 30, 10, 10, 30, 50 off. */
  @Test
  void require_rowReversed_refusedNamingTheWorst() {
    assertThatThrownBy(() -> fit(SIX, 70, 60, 50, 40, 30, 20).require())
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:1: J01: expected colours of strip KM7T-90QA")
        .hasMessageContaining("ΔE*ab 30.0 on average (here 50.0)");
    assertThatThrownBy(() -> fit(SIX, 60, 70, 50, 40, 20, 15).require())
        .hasMessageStartingWith("m.txt:6: J06:")
        .hasMessageContaining("(here 55.0)");
  }

  /** All eight too dark: the patches still differ from each other as their aims do. */
  @Test
  void require_badPrint_taken() {
    assertThatCode(() -> fit(SIX, 12, 22, 32, 42, 52, 62).require()).doesNotThrowAnyException();
  }

  /** Two of eight may be more than 25 off, not three. */
  @Test
  void require_manyFarOff_refused() {
    assertThatCode(() -> fit(EIGHT, 36, 46, 30, 40, 50, 60, 70, 80).require())
        .doesNotThrowAnyException();
    assertThatCode(() -> fit(EIGHT, 35, 45, 55, 40, 50, 60, 70, 80).require())
        .doesNotThrowAnyException();
    assertThatThrownBy(() -> fit(EIGHT, 35.1, 45.1, 55.1, 40, 50, 60, 70, 80).require())
        .isInstanceOf(InputException.class);
  }

  /** Colours so much alike that any order fits as well can't tell. */
  @Test
  void require_coloursAlike_taken() {
    double[] alike = {50, 50.2, 50.4, 50.6, 50.8, 51};
    assertThatCode(() -> fit(alike, 57, 57.2, 57.4, 57.6, 57.8, 58).require())
        .doesNotThrowAnyException();
    assertThatThrownBy(() -> fit(alike, 60, 60.2, 60.4, 60.6, 60.8, 61).require())
        .isInstanceOf(InputException.class);
  }

  /** Each set is asked by itself, where it has six readings. */
  @Test
  void require_oneSetWrong_refused() {
    assertThatThrownBy(() -> both(6).require()).isInstanceOf(InputException.class);
    assertThatCode(() -> both(5).require()).doesNotThrowAnyException();
  }

  /** Off by 15 or more, and less than 4 from another patch's aim. */
  @Test
  void findMisreadings_nearAnotherPatch_named() {
    assertThat(misreadings(66.1, 30, 40, 50, 60, 70))
        .containsExactly(
            "m.txt:1: the reading of J01 differs from its aim by ΔE*ab 46.1, but fits J06; check"
                + " that it was not misread");
    assertThat(misreadings(66, 30, 40, 50, 60, 70)).isEmpty();
    assertThat(misreadings(34, 30, 40, 50, 60, 70)).isEmpty();
    assertThat(misreadings(33, 30, 40, 50, 60, 70)).isEmpty();
    assertThat(misreadings(20, 30, 40, 68, 60, 51)).hasSize(2);
  }

  private static List<String> misreadings(double... readings) {
    List<Finding> findings = new ArrayList<>();
    fit(SIX, readings).findMisreadings(findings);
    assertThat(findings).allMatch(one -> one.code().equals("reading-fits-another-patch"));
    return findings.stream().map(Finding::text).toList();
  }

  /** Six job patches read as they are, and some standard patches read the other way round. */
  private static StatedFit both(int standard) {
    StripFixture fixture = StripFixture.empty();
    double[] readings = new double[6 + standard];
    for (int i = 0; i < 6; i++) {
      fixture.job("flat", Map.of("Black", 90.0 - SIX[i]), grey(SIX[i]), "condition", 10);
      readings[i] = SIX[i];
    }
    for (int i = 0; i < standard; i++) {
      fixture.standard("tint", Map.of("Black", 90.0 - SIX[i]), grey(SIX[i]));
      readings[6 + i] = SIX[standard - 1 - i];
    }
    return fit(fixture.build("KM7T-90QA", 1), readings);
  }

  /** Job patches of these L* with these L* read. */
  private static StatedFit fit(double[] aims, double... readings) {
    StripFixture fixture = StripFixture.empty();
    for (double aim : aims) {
      fixture.job("flat", Map.of("Black", 95.0 - aim), grey(aim), "condition", 10);
    }
    return fit(fixture.build("KM7T-90QA", 1), readings);
  }

  private static StatedFit fit(Strip strip, double... lightness) {
    List<Reading> readings = new ArrayList<>();
    Map<Patch, List<Reading>> found = new LinkedHashMap<>();
    for (Patch patch : strip.patches()) {
      int line = readings.size() + 1;
      Reading reading = new Reading(patch.id(), "", Map.of(), grey(lightness[line - 1]), line);
      readings.add(reading);
      found.put(patch, List.of(reading));
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
    return StatedFit.of(strip, measurement, SheetPatch.of(strip), found);
  }

  private static Lab grey(double l) {
    return new Lab(l, 0, 0);
  }
}
