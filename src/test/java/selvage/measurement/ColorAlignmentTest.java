package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.Coverage;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

class ColorAlignmentTest {
  private static List<SheetPatch> rows(int rows, int length) {
    List<Patch> patches = new ArrayList<>();
    for (int row = 1; row <= rows; row++) {
      for (int column = 1; column <= length; column++) {
        patches.add(
            new Patch(
                "J" + (patches.size() + 1),
                PatchSet.JOB,
                "flat",
                InkMixture.cmyk(10, 0, 0, 0),
                new Aim(new Lab(50, 0, 0), AimSource.CONDITION),
                0,
                0,
                row,
                column,
                new BoxMm(8.0 * column, 10.0 * row, 7, 7),
                Optional.empty(),
                Optional.empty()));
      }
    }
    return SheetPatch.of(
        new Strip(
            "KM7T-90QA",
            1,
            1,
            new Strip.Place("bottom", true, 0, 0, 600, 60, 1, false),
            new Strip.Reader("xy-table", 4.5),
            patches,
            new Coverage(90, 95, 0.5, 40),
            List.of()));
  }

  @Test
  void isFeasible_rowsThatInstrumentsRead_areAligned() {
    // 400 mm of patches of 7 mm make 57; a job set of 200 patches beside a standard set of 55
    assertThat(ColorAlignment.isFeasible(171, rows(3, 57))).isTrue();
    assertThat(ColorAlignment.isFeasible(285, rows(5, 57))).isTrue();
    assertThat(ColorAlignment.isFeasible(256, rows(16, 16))).isTrue();
    assertThat(ColorAlignment.isFeasible(100, rows(1, 100))).isTrue();
  }

  @Test
  void isFeasible_aRowThatWouldTakeMinutes_isNotTried() {
    assertThat(ColorAlignment.isFeasible(800, rows(1, 800))).isFalse();
  }

  @Test
  void isFeasible_farMoreReadingsThanPatches_isNotTried() {
    assertThat(ColorAlignment.isFeasible(1000, rows(1, 20))).isFalse();
  }
}
