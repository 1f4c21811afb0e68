package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class IdMarkTest {
  private static final double MODULE_MM = 0.5;

  /** The modules of the symbol, from the lower left, as the bars paint them. */
  private static boolean[][] modules(IdMark mark) {
    int size = (int) Math.round(mark.sizeMm() / MODULE_MM);
    boolean[][] dark = new boolean[size][size];
    for (BoxMm bar : mark.bars(20, 10)) {
      int row = (int) Math.round((bar.yMm() - 10) / MODULE_MM);
      int first = (int) Math.round((bar.xMm() - 20) / MODULE_MM);
      int end = first + (int) Math.round(bar.widthMm() / MODULE_MM);
      for (int column = first; column < end; column++) {
        assertThat(dark[row][column]).isFalse();
        dark[row][column] = true;
      }
    }
    return dark;
  }

  @Test
  void bars_anyName_haveTheFinderOfTheStandard() {
    // ISO/IEC 16022: solid along the left and lower edges, alternating along the others.
    for (String name : List.of("R8Y0-MRMV", "A", "0000-0000", "ZZZZ-ZZZZ")) {
      boolean[][] dark = modules(IdMark.of(name));
      int last = dark.length - 1;
      for (int i = 0; i <= last; i++) {
        assertThat(dark[i][0]).isTrue();
        assertThat(dark[0][i]).isTrue();
        assertThat(dark[last][i]).isEqualTo(i % 2 == 0);
        assertThat(dark[i][last]).isEqualTo(i % 2 == 0);
      }
    }
  }

  @Test
  void size_ofAStripsName_isSmall() {
    // Sixteen modules hold twelve code words, one for each letter here.
    assertThat(IdMark.of("R8Y0-MRMV").sizeMm()).isLessThanOrEqualTo(16 * MODULE_MM);
  }

  @Test
  void bars_twoNames_differ() {
    assertThat(modules(IdMark.of("R8Y0-MRMV"))).isNotEqualTo(modules(IdMark.of("R8Y0-MRMW")));
  }
}
