package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class IdMarkTest {
  private static final double MODULE_MM = 25.4 / 50;

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

  @Test
  void turnedBars_aName_areTheBarsTurnedCounterClockwise() {
    IdMark mark = IdMark.of("R8Y0-MRMV");
    boolean[][] upright = modules(mark);
    int size = upright.length;
    boolean[][] turned = new boolean[size][size];
    for (BoxMm bar : mark.turnedBars(20, 10)) {
      int column = (int) Math.round((bar.xMm() - 20) / MODULE_MM);
      int first = (int) Math.round((bar.yMm() - 10) / MODULE_MM);
      int end = first + (int) Math.round(bar.heightMm() / MODULE_MM);
      for (int row = first; row < end; row++) {
        turned[row][column] = true;
      }
    }
    for (int row = 0; row < size; row++) {
      for (int column = 0; column < size; column++) {
        assertThat(turned[column][size - 1 - row]).isEqualTo(upright[row][column]);
      }
    }
  }

  @Test
  void bars_anyName_areWholeSamplesWideAndHigh() {
    for (int dpi : new int[] {100, 150, 200, 300, 400, 600}) {
      double sampleMm = 25.4 / dpi;
      for (BoxMm bar : IdMark.of("R8Y0-MRMV").bars(0, 0)) {
        assertThat(bar.widthMm() / sampleMm)
            .isCloseTo(Math.rint(bar.widthMm() / sampleMm), within(1e-6));
        assertThat(bar.heightMm() / sampleMm)
            .isCloseTo(Math.rint(bar.heightMm() / sampleMm), within(1e-6));
      }
    }
  }
}
