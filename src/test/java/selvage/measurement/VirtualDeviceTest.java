package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.color.ReferenceWhite;
import selvage.finding.Finding;
import selvage.strip.Strip;

class VirtualDeviceTest {
  private static final ReferenceCondition CONDITION = ReferenceConditions.defaultCondition();
  private static final Lab PAPER = CONDITION.paper();
  private static final Lab CYAN = CONDITION.aim(100, 0, 0, 0).lab();
  private static final Lab SPOT = new Lab(46, 60, 40);
  private static final Strip STRIP = strip();

  private static Strip strip() {
    return StripFixture.empty()
        .both("substrate", Map.of(), PAPER, 10)
        .both("solid", Map.of("Cyan", 100.0), CYAN, 10)
        .job("flat", Map.of("Cyan", 40.0), CONDITION.aim(40, 0, 0, 0).lab(), "condition", 10)
        .job("flat", Map.of("Magenta", 40.0), CONDITION.aim(0, 40, 0, 0).lab(), "condition", 10)
        .job("spot-solid", Map.of("Dune Red", 100.0), SPOT, "library", 50)
        .job("spot-tint", Map.of("Dune Red", 50.0), new Lab(70, 30, 19), "predicted", 10)
        .build("KM7T-90QA", 1);
  }

  @Test
  void read_noDrift_exactlyTheAims() {
    for (VirtualDevice device : List.of(VirtualDevice.withoutDrift(0, 7), device(Drift.NONE))) {
      List<Reading> readings = device.read(STRIP);
      for (int i = 0; i < readings.size(); i++) {
        assertThat(readings.get(i).lab())
            .isEqualTo(SheetPatch.of(STRIP).get(i).first().aim().lab());
      }
    }
  }

  /** 40 % moves to 40 + 4 · 3 · 0.4 · 0.6 = 42.88 %. */
  @Test
  void read_toneOfCyan_itsTintsAlone() {
    Drift drift = tone(Map.of("Cyan", 3.0));
    List<Lab> read = labs(drift);
    assertThat(read.get(0)).isEqualTo(PAPER);
    assertThat(read.get(1)).isEqualTo(CYAN);
    assertClose(read.get(2), CONDITION.aim(42.88, 0, 0, 0).lab(), 0.01);
    assertThat(read.get(3)).isEqualTo(CONDITION.aim(0, 40, 0, 0).lab());
    assertThat(read.get(4)).isEqualTo(SPOT);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-10, 10})
  void read_densityOfCyan_solidsDensityOverPaperChangesByThatMuch(double percent) {
    Drift drift =
        new Drift(Map.of(), Map.of("Cyan", percent), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);
    List<Lab> read = labs(drift);
    assertThat(density(read.get(1)) / density(CYAN)).isCloseTo(1 + percent / 100, within(1e-9));
    assertClose(read.get(0), PAPER, 1e-9);
    assertThat(Math.signum(CONDITION.aim(40, 0, 0, 0).lab().l() - read.get(2).l()))
        .isEqualTo(Math.signum(percent));
    assertClose(read.get(3), CONDITION.aim(0, 40, 0, 0).lab(), 1e-9);
  }

  /** Density of X, the light that cyan takes away, over paper. */
  private static double density(Lab lab) {
    double paper = ReferenceWhite.ISO_13655.toXyz(PAPER).x();
    return -Math.log10(ReferenceWhite.ISO_13655.toXyz(lab).x() / paper);
  }

  @Test
  void read_paperShift_paperByJustThatAndInksInProportion() {
    Drift drift =
        new Drift(Map.of(), Map.of(), new LabShift(-1, 0.5, 3), Map.of(), LabShift.NONE, 0, 1);
    List<Lab> read = labs(drift);
    assertClose(read.get(0), new LabShift(-1, 0.5, 3).applied(PAPER, 1), 1e-9);
    assertThat(z(read.get(1)) / z(CYAN)).isCloseTo(z(read.get(0)) / z(PAPER), within(1e-9));
  }

  private static double z(Lab lab) {
    return ReferenceWhite.ISO_13655.toXyz(lab).z();
  }

  @Test
  void read_spotShift_solidWhollyTintByItsPart() {
    LabShift shift = new LabShift(2, -4, 1);
    for (Drift drift :
        List.of(
            new Drift(
                Map.of(), Map.of(), LabShift.NONE, Map.of("Dune Red", shift), LabShift.NONE, 0, 1),
            new Drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), shift, 0, 1))) {
      List<Lab> read = labs(drift);
      assertClose(read.get(4), shift.applied(SPOT, 1), 1e-9);
      assertClose(read.get(5), shift.applied(new Lab(70, 30, 19), 0.5), 1e-9);
      assertThat(read.get(1)).isEqualTo(CYAN);
    }
  }

  @Test
  void read_noise_seededAndOfTheSizeAsked() {
    StripFixture fixture = StripFixture.empty();
    for (int i = 0; i < 2000; i++) {
      fixture.standard("flat", Map.of("Black", i / 20.0), new Lab(50, 0, 0));
    }
    Strip large = fixture.build("NNNN-0000", 1);
    List<Reading> readings = VirtualDevice.withoutDrift(0.8, 3).read(large);
    assertThat(VirtualDevice.withoutDrift(0.8, 3).read(large)).isEqualTo(readings);
    assertThat(VirtualDevice.withoutDrift(0.8, 4).read(large)).isNotEqualTo(readings);
    assertThat(VirtualDevice.withoutDrift(0.8, 3).read(fixture.build("NNNN-0001", 2)))
        .isNotEqualTo(readings);
    double squares = 0;
    for (Reading reading : readings) {
      squares += Math.pow(ColorDifference.de76(new Lab(50, 0, 0), reading.lab()), 2);
    }
    assertThat(Math.sqrt(squares / readings.size())).isCloseTo(0.8, within(0.04));
  }

  @Test
  void of_spotWithoutSolidOrAlone_guessedAndSaidSo() {
    Strip strip =
        StripFixture.empty()
            .job("spot-tint", Map.of("Sea", 50.0), new Lab(70, -10, -20), "predicted", 50)
            .job("flat", Map.of("Fog", 20.0, "Black", 10.0), new Lab(70, 0, 0), "predicted", 50)
            .build("GGGG-0000", 1);
    Drift drift =
        new Drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), new LabShift(4, 0, 0), 0, 1);
    VirtualDevice device = VirtualDevice.of(CONDITION, List.of(strip), drift);
    assertThat(device.findings())
        .extracting(Finding::code)
        .containsExactly("spot-not-known", "spot-solid-drawn-out");
    assertClose(device.read(strip).get(0).lab(), new Lab(72, -10, -20), 1e-9);
  }

  @Test
  void drift_outOfRange_refused() {
    assertThatThrownBy(() -> tone(Map.of("Cyan", 26.0)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> tone(Map.of("Cyan", Double.NaN)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> VirtualDevice.withoutDrift(-1, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new LabShift(Double.NaN, 0, 0))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void aims_ofTheCondition_areNodes() {
    Aim node = CONDITION.aim(100, 0, 0, 0);
    assertThat(node.source()).isEqualTo(AimSource.CONDITION_NODE);
  }

  private static Drift tone(Map<String, Double> tone) {
    return new Drift(tone, Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);
  }

  private static VirtualDevice device(Drift drift) {
    return VirtualDevice.of(CONDITION, List.of(STRIP), drift);
  }

  private static List<Lab> labs(Drift drift) {
    List<Lab> labs = new ArrayList<>();
    device(drift).read(STRIP).forEach(reading -> labs.add(reading.lab()));
    return labs;
  }

  private static void assertClose(Lab found, Lab expected, double tolerance) {
    assertThat(ColorDifference.de76(expected, found)).isLessThanOrEqualTo(tolerance);
  }
}
