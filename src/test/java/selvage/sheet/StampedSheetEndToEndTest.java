package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Stamped sheets, read back from an independent renderer's planes. */
class StampedSheetEndToEndTest {
  /** Fills of process and spot inks, one over the edge of the sheet. */
  private static final String CONTENT =
      "0.33 0 0.8 0.1 k 30 40 150 120 re f /Red cs 0.5 scn 120 100 140 90 re f"
          + " /Teal cs 1 scn 40 200 60 60 re f 1 0 0 0 k -50 -50 80 90 re f"
          + " 0 1 0 0 k 280 380 200 200 re f";

  @TempDir Path folder;

  @BeforeAll
  static void needsTools() {
    assumeTrue(StampedSheet.hasTools(), "gs or qpdf is not installed");
  }

  @ParameterizedTest
  @CsvSource({
    "0, 1, 0, 0, BOTTOM",
    "90, 1, 0, 0, BOTTOM",
    "180, 1, 0, 0, TOP",
    "270, 1, 0, 0, RIGHT",
    "0, 2, 0, 0, LEFT",
    "90, 0.5, -30, 55.5, RIGHT",
    "270, 1.5, 100.25, -40, BOTTOM",
    "0, 1, 17.3, -200.9, RIGHT"
  })
  void stamp_rotatedScaledOrShiftedPage_printsEveryPatchAndLeavesThePage(
      int rotate, double userUnit, double x, double y, Edge edge) throws Exception {
    String content = "1 0 0 1 " + x + " " + y + " cm " + CONTENT;
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox ["
                    + x
                    + " "
                    + y
                    + " "
                    + (x + 320)
                    + " "
                    + (y + 420)
                    + "] /Rotate "
                    + rotate
                    + " /UserUnit "
                    + userUnit
                    + " "
                    + JobPdf.SPOTS,
                content);
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(edge));
    assertThat(sheet.strip.place().mediaExtended()).isTrue();
    sheet.assertFileIsSound();
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
  }

  @Test
  void stamp_grownSheet_keepsTrimAndBleed() throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 400 500] /CropBox [10 10 390 490] /BleedBox [20 20 380 480]"
                    + " /TrimBox [30 30 370 470] "
                    + JobPdf.SPOTS,
                CONTENT);
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(Edge.TOP));
    try (PDDocument document = Loader.loadPDF(sheet.proof.toFile())) {
      PDPage page = document.getPage(0);
      assertThat(page.getTrimBox()).hasToString(new PDRectangle(30, 30, 340, 440).toString());
      assertThat(page.getBleedBox()).hasToString(new PDRectangle(20, 20, 360, 460).toString());
      PDRectangle media = page.getMediaBox();
      assertThat(media.getLowerLeftY()).isZero();
      assertThat(media.getUpperRightX()).isEqualTo(400);
      assertThat(media.getUpperRightY()).isGreaterThan(600);
      assertThat(page.getCropBox().getUpperRightY()).isEqualTo(media.getUpperRightY());
      assertThat(page.getCropBox().getLowerLeftY()).isEqualTo(10);
    }
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
  }
}
