package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.strip.BoxMm;
import selvage.strip.ReaderGeometry;
import selvage.strip.StripContent;
import selvage.strip.StripLayout;

class StripsAloneTest {
  private static final double SAMPLE_MM = 25.4 / 300;

  @ParameterizedTest
  @ValueSource(strings = {"handheld-spot", "handheld-scan", "strip-feeder", "xy-table"})
  void pageHeight_stripsOfManyLengths_keepsTheMiddleClearOfLines(String reader) throws Exception {
    ReaderGeometry geometry = ReaderGeometry.load(reader);
    StripContent content = StampedSheet.content(1, 24, "full");
    try (PDDocument document = new PDDocument()) {
      StripFont font = StripFont.in(document);
      int moved = 0;
      double shortest = StripLayout.shortestMm(geometry);
      for (double available = shortest; available < shortest + 300; available += 7) {
        StripLayout layout = StripLayout.of(content, geometry, available, font);
        double height = StripsAlone.pageHeightMm(layout);
        assertThat(height / SAMPLE_MM).isCloseTo(Math.rint(height / SAMPLE_MM), within(1e-6));
        // one line, and the clear space on both sides of it, is passed at half the page's growth
        assertThat(height - layout.heightMm()).isBetween(-1e-6, 4.0);
        assertClear(layout, height / 2);
        moved += height - layout.heightMm() > SAMPLE_MM ? 1 : 0;
      }
      assertThat(moved).as("pages that had to grow").isPositive();
    }
  }

  private static void assertClear(StripLayout layout, double middleMm) {
    for (StripLayout.Placed placed : layout.placed()) {
      BoxMm patch = placed.box();
      assertThat(Math.abs(patch.yMm() - middleMm)).isGreaterThan(0.5);
      assertThat(Math.abs(patch.yMm() + patch.heightMm() - middleMm)).isGreaterThan(0.5);
    }
    for (BoxMm bar : layout.drawing().bars()) {
      if (bar.widthMm() > 20) {
        assertThat(Math.abs(bar.yMm() + bar.heightMm() / 2 - middleMm)).isGreaterThan(0.8);
      }
    }
  }
}
