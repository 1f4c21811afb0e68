package selvage.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

class MixtureKeyTest {
  @Test
  void of_thenParse_isTheSameMixture() {
    InkMixture mixture =
        InkMixture.ofUnits(
            Map.of(
                Colorant.CYAN,
                1,
                Colorant.BLACK,
                Tint.FULL,
                Colorant.named("Reed & Teal=\"1\" <é>"),
                12_345));
    assertThat(MixtureKey.parse(MixtureKey.of(mixture))).isEqualTo(mixture);
    assertThat(MixtureKey.of(InkMixture.cmyk(40, 0, 0, 0))).isEqualTo("Cyan=20400");
  }

  @Test
  void parse_nothing_isPaper() {
    assertThat(MixtureKey.parse("")).isEqualTo(InkMixture.PAPER);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"Cyan", "=1", "Cyan=", "Cyan=-1", "Cyan=51001", "Cyan=1e3", "&", "Cyan=%"})
  void parse_noMixture_isRefused(String key) {
    assertThatThrownBy(() -> MixtureKey.parse(key)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void parse_veryLong_isRefused() {
    assertThatThrownBy(() -> MixtureKey.parse("A".repeat(5000) + "=1"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
