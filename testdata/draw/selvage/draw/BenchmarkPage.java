package selvage.draw;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/**
 * Draws the page on which the survey's speed is stated: A4 with a CMYK photograph of a megapixel
 * (1200 by 834 samples, JPEG) on three fifths of it and flat colour below.
 */
public final class BenchmarkPage {
  private BenchmarkPage() {}

  /**
   * Writes the page.
   *
   * @param args the file; then {@code plain} for the photograph's samples as they are, not as JPEG
   */
  public static void main(String[] args) throws IOException {
    Files.write(Path.of(args[0]), draw(args.length < 2 || !args[1].equals("plain")));
  }

  private static byte[] draw(boolean compressed) throws IOException {
    Picture picture = Shore.draw(1200, 834);
    byte[] samples = picture.toInk(0.03, 5);
    byte[] data =
        compressed
            ? JpegEncoder.encode(samples, 1200, 834, 4, 80, JpegEncoder.Marker.ADOBE_PLAIN)
            : samples;
    try (PDDocument document = new PDDocument()) {
      document.setDocumentId(1L);
      PDPage page = new PDPage(PDRectangle.A4);
      document.addPage(page);
      PDImageXObject image =
          new PDImageXObject(
              document,
              new ByteArrayInputStream(data),
              compressed ? COSName.DCT_DECODE : null,
              1200,
              834,
              8,
              PDDeviceCMYK.INSTANCE);
      try (PDPageContentStream out = new PDPageContentStream(document, page)) {
        out.drawImage(image, 0, 428, 595.28f, 413.72f);
        for (int i = 0; i < 24; i++) {
          out.setNonStrokingColor(Inks.cmyk(4 * i, 90 - 3 * i, 50, 2 * i));
          out.addRect(40 + i % 6 * 88, 30 + i / 6 * 95, 80, 85);
          out.fill();
        }
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      document.save(bytes, CompressParameters.NO_COMPRESSION);
      return bytes.toByteArray();
    }
  }
}
