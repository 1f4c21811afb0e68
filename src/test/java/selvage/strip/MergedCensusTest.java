package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class MergedCensusTest {
  @Test
  void of_pagesOfDifferentInks_addsAreasOfEqualMixtures() {
    InkMixture red = InkMixture.ofPercents(Map.of("Dune Red", 100.0));
    InkMixture grey = InkMixture.cmyk(0, 0, 0, 40);
    Census one =
        new CensusBuilder()
            .add(InkMixture.PAPER, 60, ObjectKind.FILL)
            .add(grey, 40, ObjectKind.TEXT)
            .build();
    Census other =
        new CensusBuilder()
            .add(InkMixture.PAPER, 20, ObjectKind.FILL)
            .add(red, 50, ObjectKind.FILL)
            .add(grey, 30, ObjectKind.IMAGE)
            .build();
    Census merged = MergedCensus.of(List.of(one, other));
    assertThat(merged.totalSamples()).isEqualTo(200);
    assertThat(merged.size()).isEqualTo(3);
    assertThat(merged.mixture(0)).isEqualTo(InkMixture.PAPER);
    assertThat(merged.samples(0)).isEqualTo(80);
    assertThat(merged.mixture(1)).isEqualTo(grey);
    assertThat(merged.samples(1)).isEqualTo(70);
    assertThat(merged.kindBits(1)).isEqualTo(ObjectKind.TEXT.bit() | ObjectKind.IMAGE.bit());
    assertThat(merged.mixture(2)).isEqualTo(red);
  }
}
