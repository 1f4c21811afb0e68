package selvage.separation;

import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import selvage.color.ReferenceCondition;
import selvage.color.SpotInk;
import selvage.color.SpotLibrary;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.finding.Severity;

/** A customer's PDF, TIFF or JPEG, opened for separation. Not for use by several threads. */
public final class PdfJob implements AutoCloseable {
  /** Samples of a band: what bounds the memory of a large sheet. */
  private static final int BAND_SAMPLES = 1_500_000;

  /**
   * A page of no more samples is read in one go: reading it again would cost more than it saves.
   */
  private static final int ONE_BAND_SAMPLES = 2_500_000;

  /** Thirty metres at 150 samples an inch; a band must hold several whole rows. */
  private static final int MOST_SAMPLES_A_SIDE = 180_000;

  static {
    FontMappers.set(new BundledFonts());
  }

  private final Path file;
  private final JobDocument job;
  private final PDDocument document;
  private final ContentLimits limits;
  private final JobSpots spots = new JobSpots();
  private final IntentSpots ownSpots;

  private PdfJob(Path file, JobDocument job, ContentLimits limits) {
    this.file = file;
    this.job = job;
    this.document = job.document();
    this.limits = limits;
    this.ownSpots = new IntentSpots(document);
  }

  /**
   * Opens a job.
   *
   * @throws InputException if it can't be used: no such file, truncated, locked, without pages
   */
  public static PdfJob open(Path file, ContentLimits limits) throws InputException {
    return new PdfJob(file, JobDocument.open(file, false), limits);
  }

  /** The number of pages. */
  public int pageCount() {
    return document.getNumberOfPages();
  }

  /**
   * The inks whose colour the job states nowhere, so that a neutral stands for them: those of a
   * TIFF, which has no place for it.
   *
   * @param number of the page, counted from 1
   */
  public List<String> uncoloredInks(int number) {
    return job.doubts(number).uncolored();
  }

  /**
   * The colours of spot inks that the job's output intents carry as CxF/X-4.
   *
   * @param number of the page, counted from 1
   * @param names of the inks that are asked for
   */
  public SpotLibrary ownSpots(int number, Set<String> names) throws InputException {
    return reading(
        "its output intent", () -> ownSpots.of(number, page(number).getCOSObject(), names));
  }

  /** The first output intent with a profile, else the first; empty where the job has none. */
  public Optional<OutputIntent> outputIntent() throws InputException {
    return reading("its output intent", () -> Optional.ofNullable(readOutputIntent()));
  }

  private OutputIntent readOutputIntent() throws IOException {
    COSArray intents =
        document.getDocumentCatalog().getCOSObject().getCOSArray(COSName.OUTPUT_INTENTS);
    OutputIntent best = null;
    for (int i = 0; intents != null && i < intents.size(); i++) {
      if (!(intents.getObject(i) instanceof COSDictionary intent)) {
        continue;
      }
      byte[] profile = null;
      if (intent.getDictionaryObject(COSName.DEST_OUTPUT_PROFILE) instanceof COSStream stream) {
        profile = StreamBytes.first(stream, ProcessLinks.MOST_PROFILE_BYTES);
      }
      if (best == null || (best.profile() == null && profile != null)) {
        best =
            new OutputIntent(
                intent.getString(COSName.OUTPUT_CONDITION_IDENTIFIER, ""),
                intent.getString(COSName.OUTPUT_CONDITION, "")
                    + " "
                    + intent.getString(COSName.INFO, ""),
                profile);
      }
    }
    return best;
  }

  /** Work on what the file holds. */
  private interface Reading<T> {
    T run() throws InputException, IOException;
  }

  /**
   * Does work in which PDFBox may stumble over anything that the file holds.
   *
   * @param what is read, for the message
   * @throws InputException if it can't be read
   */
  private <T> T reading(String what, Reading<T> work) throws InputException {
    try {
      return work.run();
    } catch (ContentLimits.PassedException e) {
      throw InputException.of(file.toString(), e.getMessage(), e);
    } catch (StackOverflowError e) {
      throw InputException.of(
          file.toString(), what + " can't be read: its objects lie too deep in one another", e);
    } catch (OutOfMemoryError e) {
      throw InputException.of(
          file.toString(),
          what
              + " needs more memory than the "
              + (Runtime.getRuntime().maxMemory() >> 20)
              + " megabytes there are; look for objects of absurd size, or give more (java -Xmx)",
          e);
    } catch (IOException | RuntimeException e) {
      throw InputException.of(
          file.toString(),
          what + " can't be read (" + Reason.of(e) + "); ask for the file again",
          e);
    }
  }

  /**
   * A page's boxes and raster.
   *
   * @param number counted from 1
   * @param dpi samples an inch
   * @throws InputException if the page is too large to be sampled so finely
   */
  public PageGeometry geometry(int number, double dpi) throws InputException {
    PageGeometry geometry = reading("page " + number, () -> new PageGeometry(page(number), dpi));
    long samples = (long) geometry.width() * geometry.height();
    if (samples > limits.samples()
        || Math.max(geometry.width(), geometry.height()) > MOST_SAMPLES_A_SIDE) {
      throw InputException.of(
          file.toString(),
          "page "
              + number
              + " would have "
              + geometry.width()
              + " × "
              + geometry.height()
              + " samples, expected at most "
              + MOST_SAMPLES_A_SIDE
              + " a side and "
              + limits.samples()
              + " in all; check its MediaBox, or give a lower --dpi");
    }
    return geometry;
  }

  private PDPage page(int number) {
    return document.getPage(number - 1);
  }

  /**
   * Separates a page and hands its planes to a sink.
   *
   * @param number counted from 1
   * @param dpi samples an inch
   * @param condition where colours that are not ink are taken to
   * @throws InputException if the page can't be read within the limits
   * @throws IOException if the sink can't take a band
   */
  public PageSeparation separate(
      int number, double dpi, ReferenceCondition condition, BandSink sink)
      throws InputException, IOException {
    PageGeometry geometry = geometry(number, dpi);
    PageWork work = reading("page " + number, () -> begin(number, geometry, condition));
    boolean small = (long) geometry.width() * geometry.height() <= ONE_BAND_SAMPLES;
    int bandRows =
        small
            ? geometry.height()
            : Math.max(16, Math.min(geometry.height(), BAND_SAMPLES / geometry.width()));
    // Bands of equal height, so that the last is no sliver.
    int bands = (geometry.height() + bandRows - 1) / bandRows;
    bandRows = (geometry.height() + bands - 1) / bands;
    for (int top = 0; top < geometry.height(); top += bandRows) {
      int first = top;
      int bottom = Math.min(geometry.height(), top + bandRows);
      sink.take(reading("page " + number, () -> paintBand(work.scope(), geometry, first, bottom)));
    }
    Map<String, SpotInk> inks = reading("page " + number, () -> spotInks(work, condition));
    List<Finding> doubts = new ArrayList<>(job.mended());
    doubts.addAll(job.doubts(number).findings());
    if (!job.isImage()) {
      doubts.addAll(DocumentDoubts.of(document));
    }
    doubts.addAll(work.scope().findings().toList());
    if (job.isImage()) {
      refuseUnreadable(doubts);
    }
    return new PageSeparation(geometry, work.scope().inks().colorants(), inks, doubts);
  }

  /** A page while it is separated. */
  private record PageWork(PageScope scope, SpotAlternates alternates) {}

  private PageWork begin(int number, PageGeometry geometry, ReferenceCondition condition)
      throws InputException {
    byte[] intentProfile = outputIntent().map(OutputIntent::profile).orElse(null);
    InkSet inks = new InkSet();
    FindingList findings = new FindingList();
    SpotAlternates alternates = new SpotAlternates();
    ProcessLinks links = new ProcessLinks(condition, intentProfile);
    Place place = new Place(number);
    SpaceReader spaces = new SpaceReader(inks, alternates, links, findings, place);
    BlendSpaces blendSpaces = new BlendSpaces(links);
    MediaPage page = new MediaPage(page(number), geometry, document.getResourceCache());
    PageScope scope =
        new PageScope(
            number,
            place,
            page,
            document.getResourceCache(),
            inks,
            spaces,
            blendSpaces,
            new OptionalContent(document.getDocumentCatalog().getCOSObject()),
            findings,
            limits);
    page.watch(scope);
    page.checkContent();
    return new PageWork(scope, alternates);
  }

  /** What is told of an image that can't be painted. */
  private static final Set<String> NOT_PAINTED = Set.of("operator-skipped", "image-not-decoded");

  /** A page that is an image has nothing without it. */
  private void refuseUnreadable(List<Finding> doubts) throws InputException {
    for (Finding doubt : doubts) {
      if (doubt.severity() == Severity.ERROR || NOT_PAINTED.contains(doubt.code())) {
        throw InputException.of(
            file.toString(),
            "expected an image that can be decoded, found one that can't: "
                + doubt.text()
                + "; ask for the file again");
      }
    }
  }

  private static Band paintBand(PageScope scope, PageGeometry geometry, int top, int bottom) {
    COSDictionary resources = scope.page().getResources().getCOSObject();
    COSDictionary group = scope.page().getCOSObject().getCOSDictionary(COSName.GROUP);
    Layer.Blending blending =
        group != null && TransparencyScan.usesTransparency(resources)
            ? GroupSpaces.blending(group, resources, Layer.Blending.CMYK)
            : Layer.Blending.CMYK;
    boolean knockout = group != null && group.getBoolean(COSName.K, false);
    Layer layer = Layer.isolated(0, top, geometry.width(), bottom, knockout, blending);
    Compositor compositor = new Compositor(scope.inks(), scope.blendSpaces(), layer);
    AffineTransform toSamples = geometry.toSamples();
    Painter painter =
        new Painter(
            compositor,
            scope.blendSpaces(),
            toSamples,
            new PageGeometry.Window(0, top, geometry.width(), bottom),
            scope.findings(),
            scope::learnAllColorants,
            scope.deadline());
    PageArtist artist = new PageArtist(scope, painter, new ContentNesting());
    try {
      artist.paintPage();
    } catch (IOException | RuntimeException e) {
      if (e instanceof ContentLimits.PassedException passed) {
        throw passed;
      }
      scope
          .findings()
          .error(
              "page-cut-short",
              scope.where() + ": its content ends early, it can't be read on: " + Reason.of(e));
    }
    compositor.newRow(); // widens the table to all colorants
    return new Band(top, layer, compositor.table(), scope.inks(), scope.blendSpaces());
  }

  private Map<String, SpotInk> spotInks(PageWork work, ReferenceCondition condition) {
    AlternateColor colors = new AlternateColor(work.scope().spaces(), condition);
    Map<String, SpotInk> inks = new LinkedHashMap<>();
    for (var colorant : work.scope().inks().colorants()) {
      if (colorant.isSpot()) {
        String name = colorant.name();
        inks.put(
            name, spots.ink(name, work.alternates().of(name), colors, work.scope().findings()));
      }
    }
    return inks;
  }

  @Override
  public void close() throws IOException {
    job.close();
  }
}
