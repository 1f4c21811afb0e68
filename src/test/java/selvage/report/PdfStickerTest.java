package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.datamatrix.DataMatrixReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;
import selvage.measurement.LabShift;

class PdfStickerTest {
  @Test
  void write_pass_sizeWordsAndReadableMark() throws InputException, IOException, ReaderException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PdfSticker.write(List.of(ReportFixture.report("flyer.pdf", LabShift.NONE)), out);
    try (PDDocument document = Loader.loadPDF(out.toByteArray())) {
      assertThat(document.getPage(0).getMediaBox().getWidth() / 72 * 25.4)
          .isCloseTo(90, within(0.01));
      assertThat(document.getPage(0).getMediaBox().getHeight() / 72 * 25.4)
          .isCloseTo(50, within(0.01));
      assertThat(new PDFTextStripper().getText(document))
          .contains("PASS", "flyer.pdf", "KM7T-90QA", "contract proof", "FOGRA39")
          .contains("2026-11-25 10:03 UTC", "SIMULATED");
      BufferedImage image = new PDFRenderer(document).renderImageWithDPI(0, 300);
      int left = image.getWidth() * 3 / 4;
      int width = image.getWidth() - left;
      int height = image.getHeight() * 2 / 5;
      int[] pixels = image.getRGB(left, 0, width, height, null, 0, width);
      BinaryBitmap bitmap =
          new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels)));
      assertThat(new DataMatrixReader().decode(bitmap).getText()).isEqualTo(ReportFixture.STRIP_ID);
    }
  }
}
