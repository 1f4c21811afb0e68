package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;

class DriftTest {
  private static final LabShift SHIFT = new LabShift(1, -2, 3.5);

  @Test
  void moves_anythingButNoise_yes() {
    assertThat(Drift.NONE.moves()).isFalse();
    assertThat(
            drift(
                    Map.of("Cyan", 0.0),
                    Map.of("Black", 0.0),
                    LabShift.NONE,
                    Map.of("A", LabShift.NONE),
                    LabShift.NONE,
                    3)
                .moves())
        .isFalse();
    assertThat(
            drift(Map.of("Cyan", 1.0), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0).moves())
        .isTrue();
    assertThat(
            drift(Map.of(), Map.of("Cyan", -1.0), LabShift.NONE, Map.of(), LabShift.NONE, 0)
                .moves())
        .isTrue();
    assertThat(drift(Map.of(), Map.of(), SHIFT, Map.of(), LabShift.NONE, 0).moves()).isTrue();
    assertThat(
            drift(Map.of(), Map.of(), LabShift.NONE, Map.of("A", SHIFT), LabShift.NONE, 0).moves())
        .isTrue();
    assertThat(drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), SHIFT, 0).moves()).isTrue();
  }

  @Test
  void describe_everything_inOrder() {
    Drift drift =
        drift(
            Map.of("Magenta", -2.0, "Cyan", 3.0),
            Map.of("Black", -4.0),
            SHIFT,
            Map.of("Dune Red", new LabShift(0, -15, 0)),
            new LabShift(1, 0, 0),
            0.5);
    assertThat(drift.describe())
        .isEqualTo(
            "tone Cyan +3.0 %; tone Magenta -2.0 %; density Black -4.0 %; paper +1.00,-2.00,+3.50;"
                + " spot Dune Red +0.00,-15.00,+0.00; other spots +1.00,+0.00,+0.00; noise 0.50;"
                + " seed 7");
    assertThat(Drift.NONE.describe()).isEqualTo("noise 0.00; seed 1");
    assertThat(drift.spot("Dune Red").a()).isEqualTo(-15);
    assertThat(drift.spot("Other").l()).isEqualTo(1);
  }

  @Test
  void new_outOfRange_refused() {
    drift(Map.of("C", 25.0), Map.of("C", -50.0), LabShift.NONE, Map.of(), LabShift.NONE, 20);
    for (Map<String, Double> tone : java.util.List.of(Map.of("C", 25.1), Map.of("C", Double.NaN))) {
      assertThatThrownBy(() -> drift(tone, Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("tone value change of");
    }
    assertThatThrownBy(
            () -> drift(Map.of(), Map.of("C", 51.0), LabShift.NONE, Map.of(), LabShift.NONE, 0))
        .hasMessageContaining("density change of 51.0 % for C");
    for (double noise : new double[] {-0.1, 20.1, Double.NaN}) {
      assertThatThrownBy(
              () -> drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, noise))
          .hasMessageContaining("noise of");
    }
    new LabShift(100, -100, 100);
    assertThatThrownBy(() -> new LabShift(101, 0, 0)).hasMessageContaining("a shift of 101.0");
    assertThatThrownBy(() -> new LabShift(0, -101, 0)).hasMessageContaining("-101.0");
    assertThatThrownBy(() -> new LabShift(0, 0, Double.NaN)).hasMessageContaining("NaN");
  }

  @Test
  void applied_part_movesByItAndStaysAboveBlack() {
    assertThat(SHIFT.applied(new Lab(50, 10, 20), 0.5)).isEqualTo(new Lab(50.5, 9, 21.75));
    assertThat(new LabShift(-10, 0, 0).applied(new Lab(4, 1, 2), 1)).isEqualTo(new Lab(0, 1, 2));
  }

  private static Drift drift(
      Map<String, Double> tone,
      Map<String, Double> density,
      LabShift paper,
      Map<String, LabShift> spots,
      LabShift others,
      double noise) {
    return new Drift(tone, density, paper, spots, others, noise, 7);
  }
}
