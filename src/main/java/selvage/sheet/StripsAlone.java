package selvage.sheet;

import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import selvage.color.SpotInk;
import selvage.finding.InputException;
import selvage.separation.JobDocument;
import selvage.strip.IdMark;
import selvage.strip.StripLayout;

/**
 * A PDF of strips without the job, one a page, to be printed by itself. It keeps the job's output
 * intents and spot definitions, nothing else.
 */
public final class StripsAlone implements AutoCloseable {
  private static final double PT_PER_MM = 72 / 25.4;

  /**
   * No line of a row lies nearer to the page's middle: ten samples at 300 an inch, five at 150. A
   * line within four was followed for seconds, one eight off was not (docs/decisions/0080).
   */
  private static final double CLEAR_MIDDLE_MM = 0.85;

  /** Longer bars are lines along a row; the mark's are shorter. */
  private static final double LINE_MM = 10;

  private static final List<COSName> KEPT =
      List.of(COSName.TYPE, COSName.PAGES, COSName.VERSION, COSName.OUTPUT_INTENTS);

  private final PDDocument document;
  private final SpotDefinitions definitions;
  private final StripFont font;

  private StripsAlone(PDDocument document, SpotDefinitions definitions, StripFont font) {
    this.document = document;
    this.definitions = definitions;
    this.font = font;
  }

  /** Begins with no page, with what the job defines. */
  public static StripsAlone of(Path job) throws InputException, IOException {
    PDDocument document = JobDocument.open(job, true).document();
    try {
      SpotDefinitions definitions = SpotDefinitions.of(document.getPages());
      if (document.isEncrypted()) {
        document.setAllSecurityToBeRemoved(true);
      }
      while (document.getNumberOfPages() > 0) {
        document.removePage(document.getNumberOfPages() - 1);
      }
      COSDictionary catalog = document.getDocumentCatalog().getCOSObject();
      for (COSName key : List.copyOf(catalog.keySet())) {
        if (!KEPT.contains(key)) {
          catalog.removeItem(key);
        }
      }
      document.getDocumentInformation().getCOSObject().clear();
      return new StripsAlone(document, definitions, StripFont.in(document));
    } catch (IOException | RuntimeException e) {
      document.close();
      throw e;
    }
  }

  /** Adds a page with a strip, rows lying. */
  public void add(StripLayout layout, Map<String, SpotInk> inks) throws IOException {
    PatchColors colors = new PatchColors(document, definitions::separation, inks);
    PDFormXObject form = StripForm.of(document, layout, colors, font, false);
    form.setMatrix(AffineTransform.getScaleInstance(PT_PER_MM, PT_PER_MM));
    PDRectangle box =
        new PDRectangle(
            (float) (MarkGrid.up(layout.widthMm()) * PT_PER_MM),
            (float) (pageHeightMm(layout) * PT_PER_MM));
    PDPage page = StripPage.blank(box);
    StripPage.paint(document, page, form);
    document.addPage(page);
  }

  /**
   * The height of a strip's page: whole samples, so that every program sets the mark on them, and
   * what is needed above the strip for its lines to keep clear of the page's middle. Programs that
   * look for marks follow that line first, and from it the edges of all that it touches: a line of
   * a row that runs along it kept one at work for seconds.
   */
  static double pageHeightMm(StripLayout layout) {
    double height = MarkGrid.up(layout.heightMm());
    while (isLineNear(layout, height / 2)) {
      height += 2 * IdMark.GRID_MM;
    }
    return height;
  }

  private static boolean isLineNear(StripLayout layout, double middleMm) {
    return layout.drawing().bars().stream()
        .filter(bar -> bar.widthMm() > LINE_MM)
        .anyMatch(
            bar ->
                bar.yMm() < middleMm + CLEAR_MIDDLE_MM
                    && bar.yMm() + bar.heightMm() > middleMm - CLEAR_MIDDLE_MM);
  }

  /** Writes; see {@link ProofDocument#write}. */
  public void write(OutputStream out, Instant modified, long seed) throws IOException {
    font.subset();
    DocumentDates.setModified(document, modified);
    document.setDocumentId(seed);
    document.save(out, CompressParameters.NO_COMPRESSION);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
