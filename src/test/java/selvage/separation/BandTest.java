package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BandTest {
  private static final int WIDTH = 40;

  /** Two rows; the second's first samples, up to the column, are of state 1. */
  private static Band band(int column) {
    InkSet inks = new InkSet();
    StateTable table = new StateTable(4);
    Layer layer = Layer.isolated(0, 0, WIDTH, 2, false, Layer.Blending.CMYK);
    Arrays.fill(layer.cells, WIDTH, WIDTH + column, 1);
    return new Band(5, layer, table, inks, new BlendSpaces(new ProcessLinks(null, null)));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 7, 8, 9, 10, 20, 39, 40})
  void runEnd_anyLength_isWhereTheStateChanges(int column) {
    Band band = band(column);
    assertThat(band.runEnd(0, 6, WIDTH)).isEqualTo(column);
    if (column < WIDTH) {
      assertThat(band.runEnd(column, 6, WIDTH)).isEqualTo(WIDTH);
    }
  }

  @Test
  void runEnd_endGiven_goesNoFurther() {
    assertThat(band(30).runEnd(3, 6, 4)).isEqualTo(4);
    assertThat(band(30).runEnd(3, 6, 17)).isEqualTo(17);
    assertThat(band(30).runEnd(0, 5, WIDTH)).isEqualTo(WIDTH);
  }
}
