package selvage.draw;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.DeflaterOutputStream;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;
import org.apache.pdfbox.pdmodel.graphics.color.PDOutputIntent;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/**
 * Draws the demo job: two A4 pages with bleed for an invented workshop. Run it to write the file
 * again; the same code gives the same bytes.
 */
public final class DemoJob {
  private static final double TRIM_WIDTH_MM = 210;
  private static final double TRIM_HEIGHT_MM = 297;
  private static final double BLEED_MM = 3;
  private static final double MARGIN_MM = 9; // from the trim to the edge of the media

  private DemoJob() {}

  /** Writes the job to the file that is named, or to {@code testdata/demo-job.pdf}. */
  public static void main(String[] args) throws IOException {
    Files.write(Path.of(args.length > 0 ? args[0] : "testdata/demo-job.pdf"), draw());
  }

  /** The job as a PDF file. */
  public static byte[] draw() throws IOException {
    try (PDDocument document = new PDDocument();
        InputStream fontFile =
            PDDocument.class.getResourceAsStream(
                "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf")) {
      document.setVersion(1.6f);
      document.setDocumentId(20261125L);
      document.getDocumentInformation().setTitle("Oddlemere Tileworks, flyer and labels");
      PDFont font = PDType0Font.load(document, fontFile, true);
      Inks inks = new Inks(document);
      PDImageXObject shore = jpeg(document, Shore.draw(1140, 860));
      PDImageXObject stillLife = flate(document, StillLife.draw(834, 640));

      PDPage front = page(document);
      try (PDPageContentStream out = new PDPageContentStream(document, front)) {
        new FlyerPage(canvas(out, font), inks).draw(shore);
      }
      marks(document, front, font, inks);
      PDPage back = page(document);
      try (PDPageContentStream out = new PDPageContentStream(document, back)) {
        new LabelPage(canvas(out, font), inks).draw(stillLife);
      }
      marks(document, back, font, inks);
      outputIntent(document);

      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      document.save(bytes, CompressParameters.NO_COMPRESSION);
      return bytes.toByteArray();
    }
  }

  private static Canvas canvas(PDPageContentStream out, PDFont font) throws IOException {
    return new Canvas(out, font, pt(MARGIN_MM), pt(MARGIN_MM));
  }

  private static PDPage page(PDDocument document) {
    PDPage page =
        new PDPage(
            new PDRectangle(pt(TRIM_WIDTH_MM + 2 * MARGIN_MM), pt(TRIM_HEIGHT_MM + 2 * MARGIN_MM)));
    page.setTrimBox(box(0));
    page.setBleedBox(box(BLEED_MM));
    document.addPage(page);
    return page;
  }

  private static PDRectangle box(double aroundTrimMm) {
    float start = pt(MARGIN_MM - aroundTrimMm);
    return new PDRectangle(
        start, start, pt(TRIM_WIDTH_MM + 2 * aroundTrimMm), pt(TRIM_HEIGHT_MM + 2 * aroundTrimMm));
  }

  /** Corner marks on all plates, outside the bleed. */
  private static void marks(PDDocument document, PDPage page, PDFont font, Inks inks)
      throws IOException {
    try (PDPageContentStream out =
        new PDPageContentStream(
            document, page, PDPageContentStream.AppendMode.APPEND, true, true)) {
      Canvas canvas = canvas(out, font);
      for (double x : new double[] {0, TRIM_WIDTH_MM}) {
        double outwards = x == 0 ? -1 : 1;
        for (double y : new double[] {0, TRIM_HEIGHT_MM}) {
          double upwards = y == 0 ? -1 : 1;
          canvas.line(inks.registration(), 0.1, x + 4 * outwards, y, x + 8 * outwards, y);
          canvas.line(inks.registration(), 0.1, x, y + 4 * upwards, x, y + 8 * upwards);
        }
      }
    }
  }

  private static PDImageXObject jpeg(PDDocument document, Picture picture) throws IOException {
    byte[] data =
        JpegEncoder.encode(
            picture.toInk(0.03, 5),
            picture.width,
            picture.height,
            4,
            72,
            JpegEncoder.Marker.ADOBE_PLAIN);
    return image(document, picture, data, COSName.DCT_DECODE);
  }

  private static PDImageXObject flate(PDDocument document, Picture picture) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DeflaterOutputStream deflater = new DeflaterOutputStream(bytes)) {
      deflater.write(PngRows.of(picture.toInk(0, 0), 4 * picture.width, 4));
    }
    PDImageXObject image = image(document, picture, bytes.toByteArray(), COSName.FLATE_DECODE);
    COSDictionary parameters = new COSDictionary();
    parameters.setInt(COSName.PREDICTOR, 15);
    parameters.setInt(COSName.COLORS, 4);
    parameters.setInt(COSName.COLUMNS, picture.width);
    image.getCOSObject().setItem(COSName.DECODE_PARMS, parameters);
    return image;
  }

  private static PDImageXObject image(
      PDDocument document, Picture picture, byte[] data, COSName filter) throws IOException {
    return new PDImageXObject(
        document,
        new ByteArrayInputStream(data),
        filter,
        picture.width,
        picture.height,
        8,
        PDDeviceCMYK.INSTANCE);
  }

  /** The printing condition by its registered name, without a profile. */
  private static void outputIntent(PDDocument document) {
    COSDictionary intent = new COSDictionary();
    intent.setItem(COSName.TYPE, COSName.getPDFName("OutputIntent"));
    intent.setName(COSName.S, "GTS_PDFX");
    intent.setString(COSName.OUTPUT_CONDITION_IDENTIFIER, "FOGRA39");
    intent.setString(COSName.REGISTRY_NAME, "http://www.color.org");
    intent.setString(COSName.INFO, "Coated FOGRA39 (ISO 12647-2:2004)");
    document.getDocumentCatalog().setOutputIntents(List.of(new PDOutputIntent(intent)));
  }

  private static float pt(double mm) {
    return (float) (mm * 72 / 25.4);
  }
}
