package selvage.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleFunction;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.separation.JobDocument;
import selvage.strip.ReaderGeometry;
import selvage.strip.Strip;
import selvage.strip.StripContent;
import selvage.strip.StripLayout;

/**
 * A customer's job on its way to become a proof. Streams that are not touched are copied as they
 * are; page content inside the bleed is never changed.
 */
public final class ProofDocument implements AutoCloseable {
  private final PDDocument document;
  private final StripFont font;
  private final boolean isPdfX;
  private SpotDefinitions ofAllPages;
  private final List<Finding> findings = new ArrayList<>();
  private int stampedLast;
  private int ownPages;

  private ProofDocument(PDDocument document, StripFont font) {
    this.document = document;
    this.font = font;
    this.isPdfX = isPdfX(document);
  }

  /**
   * Opens a job.
   *
   * @throws InputException where it can't be used
   */
  public static ProofDocument open(Path job) throws InputException, IOException {
    PDDocument document = JobDocument.open(job, true).document();
    try {
      ProofDocument proof = new ProofDocument(document, StripFont.in(document));
      proof.noteProtection();
      return proof;
    } catch (IOException | RuntimeException e) {
      document.close();
      throw e;
    }
  }

  private static boolean isPdfX(PDDocument document) {
    if (document.getDocumentInformation().getCOSObject().containsKey("GTS_PDFXVersion")) {
      return true;
    }
    COSBase intents =
        document.getDocumentCatalog().getCOSObject().getDictionaryObject(COSName.OUTPUT_INTENTS);
    for (int i = 0; intents instanceof COSArray list && i < list.size(); i++) {
      if (list.getObject(i) instanceof COSDictionary intent
          && "GTS_PDFX".equals(intent.getNameAsString(COSName.S))) {
        return true;
      }
    }
    return false;
  }

  private void noteProtection() throws IOException {
    if (document.isEncrypted()) {
      document.setAllSecurityToBeRemoved(true);
      findings.add(
          Finding.warning(
              "protection-removed",
              "the job is encrypted, with permissions only; the proof is not encrypted and has no"
                  + " such permissions. Keep it as the job's owner would"));
    }
    if (!document.getSignatureDictionaries().isEmpty()) {
      findings.add(
          Finding.warning(
              "signature-broken",
              "the job is signed; the proof is a changed file, so the signature no longer holds"));
    }
  }

  /** Doubts about the file as a whole. */
  public List<Finding> findings() {
    return List.copyOf(findings);
  }

  /**
   * Puts a strip on a page, or where the sheet would grow too far on a page of its own behind it.
   *
   * @param page of the job, counted from 1, behind that of the call before
   * @param inks what is known of the job's spots, for those that the page leaves undefined
   * @param edge the edge of the page as displayed; empty for the one that costs least
   * @param occupancy where the page bears no ink
   */
  public StampedStrip stamp(
      int page,
      StripContent content,
      ReaderGeometry reader,
      Map<String, SpotInk> inks,
      Optional<Edge> edge,
      InkOccupancy occupancy)
      throws IOException {
    if (page <= stampedLast) {
      throw new IllegalArgumentException("page " + page + " after page " + stampedLast);
    }
    stampedLast = page;
    int index = page - 1 + ownPages;
    PDPage target = document.getPage(index);
    PageFrame frame = PageFrame.of(target);
    // The edges of a page ask for few lengths again and again, and to arrange patches is long work.
    Map<Double, StripLayout> known = new HashMap<>();
    DoubleFunction<StripLayout> layouts =
        length -> known.computeIfAbsent(length, of -> StripLayout.of(content, reader, of, font));
    double shortestMm = StripLayout.shortestMm(reader);
    StripPlacer placer = new StripPlacer(frame, occupancy, layouts, shortestMm);
    Placement place = placer.place(edge);
    Optional<OwnPage> own = Optional.empty();
    List<Finding> doubts = new ArrayList<>();
    if (placer.growsTooFar(place) && OwnPage.canFollow(document, target, index)) {
      doubts.add(onItsOwn(page, index + 2, place.growthMm(frame), placer.mostGrowthMm(place)));
      own = Optional.of(OwnPage.like(target, edge, layouts, shortestMm));
      place = own.get().place();
    }
    SpotDefinitions ofPage = SpotDefinitions.of(List.of(target));
    PatchColors colors = new PatchColors(document, spot -> definition(ofPage, spot), inks);
    PDFormXObject form =
        StripForm.of(
            document, place.layout(), colors, font, own.isEmpty() && hasDefaultCmyk(target));
    doubts.addAll(colors.findings());
    if (own.isPresent()) {
      form.setMatrix(place.stripToUser());
      StripPage.paint(document, own.get().page(), form);
      document.getPages().insertAfter(own.get().page(), target);
      ownPages++;
    } else {
      PageStamper stamper = new PageStamper(document, target, page);
      stamper.stamp(frame, place, form, isPdfX);
      doubts.addAll(stamper.findings());
    }
    Rectangle box = place.box();
    return new StampedStrip(
        place.layout(),
        new Strip.Place(
            place.edge().word(),
            place.extended(),
            box.llx(),
            box.lly(),
            box.width(),
            box.height(),
            page + ownPages,
            own.isPresent()),
        place.edge().isUpright(),
        doubts);
  }

  private static Finding onItsOwn(int page, int proofPage, double growthMm, double mostMm) {
    return Finding.warning(
        "strip-on-own-page",
        String.format(
            Locale.ROOT,
            "page %d: its strip would make the sheet grow by %.0f mm, more than the %.0f mm that a"
                + " sheet of this size may; it lies on a page of its own, page %d of the proof, and"
                + " the job's page is as it was. Print both in one run with the same settings, or"
                + " take fewer patches",
            page,
            growthMm,
            mostMm,
            proofPage));
  }

  private static boolean hasDefaultCmyk(PDPage page) {
    return page.getResources() != null
        && page.getResources().getCOSObject().getDictionaryObject(COSName.COLORSPACE)
            instanceof COSDictionary spaces
        && spaces.containsKey("DefaultCMYK");
  }

  private Optional<COSBase> definition(SpotDefinitions ofPage, String spot) {
    Optional<COSBase> found = ofPage.separation(spot);
    if (found.isEmpty()) {
      if (ofAllPages == null) {
        ofAllPages = SpotDefinitions.of(document.getPages());
      }
      found = ofAllPages.separation(spot);
    }
    return found;
  }

  /**
   * Writes the proof. To be called once, at the end.
   *
   * @param modified the date of change that it carries
   * @param seed of the file identifier: the same job, strips and seed give the same bytes
   */
  public void write(OutputStream out, Instant modified, long seed) throws IOException {
    font.subset();
    DocumentDates.setModified(document, modified);
    document.setDocumentId(seed);
    boolean compact = document.getDocument().isXRefStream();
    document.save(
        out, compact ? CompressParameters.DEFAULT_COMPRESSION : CompressParameters.NO_COMPRESSION);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
