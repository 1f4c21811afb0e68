package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.ink.InkMixture;

class InkTextTest {
  @Test
  void of_processAndSpot_namesThemInTheirOrder() {
    assertThat(InkText.of(InkMixture.cmyk(20, 70.5, 60, 0))).isEqualTo("C20 M70.5 Y60");
    assertThat(InkText.of(InkMixture.ofPercents(Map.of("Dune Red", 100.0, "Black", 20.0))))
        .isEqualTo("K20 Dune Red 100");
    assertThat(InkText.of(InkMixture.PAPER)).isEqualTo("paper");
  }
}
