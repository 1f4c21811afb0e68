package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SpectralScaleTest {
  /** Papers reflect some 0.6 to 1.1, with brightener up to 1.4; solids of ink 0.02 to 0.9. */
  @ParameterizedTest
  @CsvSource({"0.9,UNIT", "1.5,UNIT", "15,PERCENT", "88,PERCENT", "140,PERCENT", "0,UNIT"})
  void of_lightestOfAFile_itsScale(double lightest, SpectralScale scale) {
    assertThat(SpectralScale.of(lightest)).contains(scale);
  }

  /** 1.6 would be a paper of 160 % or an ink of 1.6 %; 14.9 no paper, or none of this world. */
  @ParameterizedTest
  @CsvSource({"1.51", "5", "14.99"})
  void of_valueThatCouldBeEither_none(double lightest) {
    assertThat(SpectralScale.of(lightest)).isEmpty();
  }

  @Test
  void takes_partsAndPercent_withinTheirRange() {
    assertThat(SpectralScale.PERCENT.reflectance(42)).isCloseTo(0.42, within(1e-12));
    assertThat(SpectralScale.UNIT.reflectance(0.42)).isEqualTo(0.42);
    assertThat(SpectralScale.PERCENT.takes(-2)).isTrue();
    assertThat(SpectralScale.PERCENT.takes(-2.1)).isFalse();
    assertThat(SpectralScale.PERCENT.takes(200)).isTrue();
    assertThat(SpectralScale.PERCENT.takes(201)).isFalse();
    assertThat(SpectralScale.UNIT.takes(2)).isTrue();
    assertThat(SpectralScale.UNIT.takes(2.01)).isFalse();
    assertThat(SpectralScale.UNIT.takes(Double.NaN)).isFalse();
    assertThat(SpectralScale.UNIT.top()).isEqualTo(1);
    assertThat(SpectralScale.PERCENT.top()).isEqualTo(100);
  }
}
