package selvage.separation;

import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSBoolean;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.io.MemoryUsageSetting;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import selvage.finding.InputException;

/**
 * Makes a PDF of a TIFF or JPEG, each image a page of its printed size, so that all that follows
 * knows one kind of job. JPEG data are passed on as they are; TIFF samples are read row by row and
 * written as a stack of images, none of which is large, so that memory stays bounded.
 */
final class ImageWrapping {
  private static final double POINTS_PER_INCH = 72;
  private static final double MM_PER_INCH = 25.4;

  /** The longest side of a page in user space units, beyond which UserUnit grows. */
  private static final double MOST_UNITS = 14_400;

  /** Bytes of the document that are kept in memory; what is more goes to a temporary file. */
  private static final long KEPT_BYTES = 64L << 20;

  private static final long MOST_JPEG_FILE = 512L << 20;

  private final Path file;
  private final boolean compressed;
  private final PDDocument document;
  private final ImageSpaces spaces;
  private final Map<Integer, JobDocument.ImageDoubts> doubts = new HashMap<>();

  private ImageWrapping(Path file, boolean compressed) {
    this.file = file;
    this.compressed = compressed;
    document = new PDDocument(MemoryUsageSetting.setupMixed(KEPT_BYTES).streamCache);
    spaces = new ImageSpaces(document);
  }

  /**
   * Wraps an image file.
   *
   * @param compressed whether samples are compressed
   * @throws InputException where it can't be used
   */
  static JobDocument wrap(Path file, boolean compressed) throws InputException {
    ImageWrapping wrapping = new ImageWrapping(file, compressed);
    String kind = "image";
    try (FileChannel channel = FileChannel.open(file)) {
      ByteAccess bytes = ByteAccess.of(channel);
      boolean tiff = TiffDirectory.isTiff(bytes.readAll(0, 4));
      kind = tiff ? "TIFF" : "JPEG";
      if (tiff) {
        wrapping.addTiff(bytes);
      } else {
        wrapping.addJpeg(bytes.size());
      }
      return new JobDocument(wrapping.document, wrapping.doubts);
    } catch (IOException | RuntimeException e) {
      throw wrapping.refused(kind, e);
    }
  }

  private InputException refused(String kind, Exception cause) {
    try {
      document.close();
    } catch (IOException e) {
      cause.addSuppressed(e);
    }
    return InputException.of(
        file.toString(), "a " + kind + " that can't be used: " + Reason.of(cause), cause);
  }

  private void addJpeg(long size) throws IOException {
    if (size > MOST_JPEG_FILE) {
      throw new IOException(
          "expected a file of at most " + (MOST_JPEG_FILE >> 20) + " MiB, found a larger one");
    }
    JpegPage jpeg = new JpegPage(Files.readAllBytes(file), ContentLimits.USUAL.imageBytes());
    Sheet sheet = new Sheet(jpeg);
    ImagePart part = jpeg.parts().get(0);
    COSStream image = sheet.image(part, jpeg.height(), 8);
    image.setItem(COSName.FILTER, COSName.DCT_DECODE);
    try (OutputStream out = image.createRawOutputStream()) {
      out.write(jpeg.coded());
    }
    sheet.place(image, 0, jpeg.height(), false);
    sheet.finish();
  }

  private void addTiff(ByteAccess bytes) throws IOException {
    for (TiffDirectory tags : TiffDirectory.readAll(bytes)) {
      if (TiffPage.isPage(tags)) {
        addPage(tags, bytes);
      }
    }
    if (document.getNumberOfPages() == 0) {
      throw new IOException("expected an image, found only small copies and masks");
    }
  }

  private void addPage(TiffDirectory tags, ByteAccess bytes) throws IOException {
    FindingList findings = new FindingList();
    try {
      TiffPage page = new TiffPage(tags, bytes, findings, where());
      Sheet sheet = new Sheet(page, findings);
      try (TiffRows rows = page.rows()) {
        new TiffBands(page, rows, compressed).write(sheet::image, sheet::place);
      }
      sheet.finish();
    } catch (IOException e) {
      throw new IOException(where() + ": " + Reason.of(e), e);
    }
  }

  private String where() {
    return "page " + (document.getNumberOfPages() + 1);
  }

  /** A page while it is made. */
  private final class Sheet {
    private final ImagePage source;
    private final FindingList findings;
    private final String where = where();
    private final byte[] profile;
    private final double[] matrix;
    private final PDPage page;
    private final Map<ImagePart, COSBase> known = new HashMap<>();
    private final COSDictionary images = new COSDictionary();
    private final StringBuilder content = new StringBuilder();
    private boolean overprinting;

    Sheet(ImagePage source) throws IOException {
      this(source, new FindingList());
    }

    Sheet(ImagePage source, FindingList findings) throws IOException {
      this.source = source;
      this.findings = findings;
      profile = source.profile();
      ImageResolution resolution = source.resolution();
      int orientation = source.orientation();
      boolean turned = orientation >= 5 && orientation <= 8;
      double across = source.width() * POINTS_PER_INCH / resolution.x();
      double down = source.height() * POINTS_PER_INCH / resolution.y();
      double width = turned ? down : across;
      double height = turned ? across : down;
      double unit = Math.max(1, Math.ceil(Math.max(width, height) / MOST_UNITS));
      width /= unit;
      height /= unit;
      page = new PDPage(new PDRectangle((float) width, (float) height));
      if (unit > 1) {
        page.setUserUnit((float) unit);
      }
      matrix = matrix(orientation, width, height);
      if (!resolution.stated()) {
        findings.warning(
            "image-resolution-missing",
            String.format(
                Locale.ROOT,
                "%s: the image states no usable resolution; %.0f dpi was taken, so that it prints"
                    + " %.1f × %.1f mm; check that this is the size",
                where,
                resolution.x(),
                width * unit / POINTS_PER_INCH * MM_PER_INCH,
                height * unit / POINTS_PER_INCH * MM_PER_INCH));
      }
      if (orientation > 1 && orientation <= 8) {
        findings.note(
            "image-turned", where + ": the image says that it is turned or mirrored; so it was");
      }
    }

    /** The unit square of the stored image on the page, upper row at 1, by orientation. */
    private static double[] matrix(int orientation, double w, double h) {
      return switch (orientation) {
        case 2 -> new double[] {-w, 0, 0, h, w, 0};
        case 3 -> new double[] {-w, 0, 0, -h, w, h};
        case 4 -> new double[] {w, 0, 0, -h, 0, h};
        case 5 -> new double[] {0, -h, -w, 0, w, h};
        case 6 -> new double[] {0, -h, w, 0, 0, h};
        case 7 -> new double[] {0, h, w, 0, 0, 0};
        case 8 -> new double[] {0, h, -w, 0, w, 0};
        default -> new double[] {w, 0, 0, h, 0, 0};
      };
    }

    /** An image without its data. */
    COSStream image(ImagePart part, int rows, int bits) throws IOException {
      COSStream image = document.getDocument().createCOSStream();
      image.setItem(COSName.TYPE, COSName.XOBJECT);
      image.setItem(COSName.SUBTYPE, COSName.IMAGE);
      image.setInt(COSName.WIDTH, source.width());
      image.setInt(COSName.HEIGHT, rows);
      image.setInt(COSName.BITS_PER_COMPONENT, bits);
      COSBase space = known.get(part);
      if (space == null) {
        space = spaces.of(part, profile, findings, where);
        known.put(part, space);
      }
      image.setItem(COSName.COLORSPACE, space);
      if (part.decode().length > 0) {
        image.setItem(COSName.DECODE, InkColor.numbers(part.decode()));
      }
      if (part.matte().length > 0) {
        image.setItem(COSName.MATTE, InkColor.numbers(part.matte()));
      }
      return image;
    }

    /**
     * Places rows of the image.
     *
     * @param from the first row
     * @param to the row after the last
     * @param over whether they overprint what lies below
     */
    void place(COSStream image, int from, int to, boolean over) {
      COSName name = COSName.getPDFName("Im" + images.size());
      images.setItem(name, image);
      double scale = (double) (to - from) / source.height();
      double shift = (double) (source.height() - to) / source.height();
      double[] m = matrix;
      content.append(over ? "q /Over gs " : "q ");
      number(m[0]);
      number(m[1]);
      number(m[2] * scale);
      number(m[3] * scale);
      number(m[2] * shift + m[4]);
      number(m[3] * shift + m[5]);
      content.append("cm /").append(name.getName()).append(" Do Q\n");
      overprinting |= over;
    }

    private void number(double value) {
      BigDecimal rounded = BigDecimal.valueOf(value).setScale(6, RoundingMode.HALF_EVEN);
      content.append(rounded.stripTrailingZeros().toPlainString()).append(' ');
    }

    void finish() throws IOException {
      COSDictionary resources = new COSDictionary();
      resources.setItem(COSName.XOBJECT, images);
      if (overprinting) {
        COSDictionary state = new COSDictionary();
        state.setItem(COSName.getPDFName("OP"), COSBoolean.TRUE);
        state.setItem(COSName.getPDFName("op"), COSBoolean.TRUE);
        state.setItem(COSName.getPDFName("OPM"), COSInteger.ONE);
        COSDictionary states = new COSDictionary();
        states.setItem(COSName.getPDFName("Over"), state);
        resources.setItem(COSName.EXT_G_STATE, states);
      }
      page.setResources(new PDResources(resources));
      COSStream stream = document.getDocument().createCOSStream();
      try (OutputStream out = stream.createOutputStream(COSName.FLATE_DECODE)) {
        out.write(content.toString().getBytes(StandardCharsets.US_ASCII));
      }
      page.getCOSObject().setItem(COSName.CONTENTS, stream);
      document.addPage(page);
      Set<String> uncolored = new TreeSet<>();
      for (ImagePart part : source.parts()) {
        for (InkChannel ink : part.inks()) {
          if (ink.color().isUnknown()) {
            uncolored.add(ink.name());
          }
        }
      }
      doubts.put(
          document.getNumberOfPages(),
          new JobDocument.ImageDoubts(findings.toList(), List.copyOf(uncolored)));
    }
  }
}
