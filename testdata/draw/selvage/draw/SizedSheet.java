package selvage.draw;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.color.PDColorSpace;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.pdmodel.graphics.state.PDExtendedGraphicsState;

/**
 * Draws sheets for benchmarks of size: A4 to A0 (ISO 216), any number of pages, each with a CMYK
 * photograph of 150 samples an inch over the whole page (JPEG) and eight spots on it, in tints,
 * knocked out and overprinted. The work on a sheet grows with its area.
 */
public final class SizedSheet {
  private static final double IMAGE_DPI = 150;
  private static final double MM_PER_INCH = 25.4;
  private static final double CELL_MM = 66;
  private static final int[][] SIZES_MM = {
    {841, 1189}, {594, 841}, {420, 594}, {297, 420}, {210, 297}
  };
  private static final String[] NAMES = {
    "Dune Red", "Reed Teal", "Kelp", "Ember", "Lagoon", "Wet Slate", "Marram", "Sea Fog"
  };

  private final PDDocument document;
  private final List<PDColorSpace> spots = new ArrayList<>();

  private SizedSheet(PDDocument document) throws IOException {
    this.document = document;
    for (int i = 0; i < NAMES.length; i++) {
      float[] solid = {i % 4 / 4f, (i + 2) % 5 / 5f, (i + 1) % 3 / 3f, i % 2 / 5f};
      spots.add(PDColorSpace.create(Inks.separation(NAMES[i], solid)));
    }
  }

  /**
   * Writes a job.
   *
   * @param args the file, the size from A0 to A4, and how many pages (1 where left out)
   */
  public static void main(String[] args) throws IOException {
    int[] sizeMm = SIZES_MM["A0 A1 A2 A3 A4".indexOf(args[1]) / 3];
    int pages = args.length > 2 ? Integer.parseInt(args[2]) : 1;
    int width = samples(sizeMm[0]);
    int height = samples(sizeMm[1]);
    byte[] jpeg =
        JpegEncoder.encode(
            Shore.draw(width, height).toInk(0.03, 5),
            width,
            height,
            4,
            80,
            JpegEncoder.Marker.ADOBE_PLAIN);
    try (PDDocument document = new PDDocument()) {
      document.setDocumentId(1L);
      SizedSheet sheet = new SizedSheet(document);
      for (int page = 0; page < pages; page++) {
        // A copy for each page, so that no reader gains by having met it before.
        sheet.draw(
            sizeMm,
            new PDImageXObject(
                document,
                new ByteArrayInputStream(jpeg),
                COSName.DCT_DECODE,
                width,
                height,
                8,
                PDDeviceCMYK.INSTANCE));
      }
      document.save(Path.of(args[0]).toFile(), CompressParameters.NO_COMPRESSION);
    }
  }

  private static int samples(double mm) {
    return (int) Math.round(mm / MM_PER_INCH * IMAGE_DPI);
  }

  private static float pt(double mm) {
    return (float) (mm / MM_PER_INCH * 72);
  }

  private void draw(int[] sizeMm, PDImageXObject image) throws IOException {
    PDPage page = new PDPage(new PDRectangle(pt(sizeMm[0]), pt(sizeMm[1])));
    document.addPage(page);
    PDExtendedGraphicsState overprint = new PDExtendedGraphicsState();
    overprint.setNonStrokingOverprintControl(true);
    overprint.setOverprintMode(1);
    try (PDPageContentStream out = new PDPageContentStream(document, page)) {
      out.drawImage(image, 0, 0, pt(sizeMm[0]), pt(sizeMm[1]));
      int cell = 0;
      for (double y = 2; y + CELL_MM <= sizeMm[1]; y += CELL_MM) {
        for (double x = 2; x + CELL_MM <= sizeMm[0]; x += CELL_MM) {
          PDColorSpace spot = spots.get(cell++ % NAMES.length);
          for (int step = 0; step < 4; step++) {
            out.setNonStrokingColor(new PDColor(new float[] {1 - step * 0.25f}, spot));
            out.addRect(pt(x + 2 + 7 * step), pt(y + 2), pt(6), pt(20));
            out.fill();
          }
          out.saveGraphicsState();
          out.setGraphicsStateParameters(overprint);
          out.setNonStrokingColor(new PDColor(new float[] {0.6f}, spot));
          disc(out, x + 45, y + 45, 16);
          out.restoreGraphicsState();
        }
      }
    }
  }

  private static void disc(PDPageContentStream out, double xMm, double yMm, double radiusMm)
      throws IOException {
    float x = pt(xMm);
    float y = pt(yMm);
    float r = pt(radiusMm);
    float k = 0.5523f * r; // a quarter of a circle as one cubic curve
    out.moveTo(x + r, y);
    out.curveTo(x + r, y + k, x + k, y + r, x, y + r);
    out.curveTo(x - k, y + r, x - r, y + k, x - r, y);
    out.curveTo(x - r, y - k, x - k, y - r, x, y - r);
    out.curveTo(x + k, y - r, x + r, y - k, x + r, y);
    out.fill();
  }
}
