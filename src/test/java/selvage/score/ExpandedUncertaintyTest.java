package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;

/**
 * The law of propagation by hand. A repeatability of 0.3 · √3 is a standard deviation of 0.3 on
 * each axis; ΔL* has the slope 1 in L* alone.
 */
class ExpandedUncertaintyTest {
  private static final double THREE_TENTHS = 0.3 * Math.sqrt(3);

  private static final List<ScoredPatch> TWO =
      List.of(patch(new Lab(52, 0, 0), 30), patch(new Lab(54, 0, 0), 10));

  @ParameterizedTest
  @CsvSource({
    "MEAN, 3, 0.424264", // 2 · 0.3 / √2
    "AREA_MEAN, 2.5, 0.474342", // 2 · 0.3 · √(30² + 10²) / 40
    "MAX, 4, 0.6",
    "P95, 2, 0.6",
    "AREA_P95, 4, 0.6",
    "MAX, 5, 0" // the value of no patch
  })
  void expanded_lightness_byHand(Statistic statistic, double value, double expected) {
    assertThat(new Uncertainty(THREE_TENTHS, 1).expanded(statistic, Metric.DL, TWO, value))
        .isCloseTo(expected, within(1e-6));
  }

  @Test
  void expanded_meanOfNine_aThird() {
    assertThat(new Uncertainty(THREE_TENTHS, 9).expanded(Statistic.MAX, Metric.DL, TWO, 4))
        .isCloseTo(0.2, within(1e-9));
    assertThat(new Uncertainty(0, 9).expanded(Statistic.MAX, Metric.DL, TWO, 4)).isZero();
  }

  /** Along 3-4-0 the slopes of ΔE*ab are 0.6 and 0.8; of ΔCh, where only b* is off, 0, 0, 1. */
  @Test
  void expanded_slopesOfSeveralAxes_addInQuadrature() {
    List<ScoredPatch> one = List.of(patch(new Lab(50 + 30, 40, 0), 1));
    assertThat(new Uncertainty(THREE_TENTHS, 1).expanded(Statistic.MAX, Metric.DE76, one, 50))
        .isCloseTo(2 * 0.3 * Math.hypot(0.6, 0.8), within(1e-4));
    List<ScoredPatch> blue = List.of(patch(new Lab(70, 0, -40), 1));
    assertThat(new Uncertainty(THREE_TENTHS, 1).expanded(Statistic.MAX, Metric.DCH, blue, 40))
        .isCloseTo(0.6, within(1e-4));
  }

  /** Of several patches with the statistic's value the most uncertain one counts. */
  @Test
  void expanded_severalWithTheValue_theGreatest() {
    List<ScoredPatch> alike = List.of(patch(new Lab(54, 0, 0), 1), patch(new Lab(46, 0, 0), 1));
    assertThat(new Uncertainty(THREE_TENTHS, 1).expanded(Statistic.MAX, Metric.DL, alike, 4))
        .isCloseTo(0.6, within(1e-9));
  }

  @Test
  void expanded_areaOfNothing_none() {
    List<ScoredPatch> none = List.of(patch(new Lab(54, 0, 0), 0));
    assertThat(new Uncertainty(1, 1).expanded(Statistic.AREA_MEAN, Metric.DL, none, 4)).isZero();
  }

  @Test
  void uncertainty_edges_takenAndBeyondRefused() {
    assertThat(new Uncertainty(20, 1).repeatabilityDe76()).isEqualTo(20);
    assertThat(new Uncertainty(0, 1)).isEqualTo(Uncertainty.NONE);
    assertThatIllegalArgumentException().isThrownBy(() -> new Uncertainty(20.1, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Uncertainty(-0.1, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Uncertainty(Double.NaN, 1));
  }

  private static ScoredPatch patch(Lab reading, double share) {
    return ScoredFixture.scored(Map.of("Cyan", 50.0), new Lab(50, 0, 0), reading, share);
  }
}
