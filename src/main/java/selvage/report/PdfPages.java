package selvage.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import selvage.color.Lab;

/**
 * The pages of a PDF as drawings. Type is Liberation Sans (SIL Open Font License), embedded as
 * subsets: Latin, Greek, Cyrillic and Hebrew letters. Others are shown by their Unicode numbers,
 * {@code [U+6C34 U+8272]}. Colours are DeviceRGB, meant as sRGB.
 */
final class PdfPages implements Drawing, AutoCloseable {
  private static final double PT_PER_MM = 72 / 25.4;
  private static final double CIRCLE = 0.5522847498;
  private static final String REGULAR =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
  private static final String BOLD = "/fonts/LiberationSans-Bold.ttf";

  private final PDDocument document = new PDDocument();
  private final ScreenColor screen = new ScreenColor();
  private final List<PDPage> pages = new ArrayList<>();
  private final PDFont regular;
  private final PDFont bold;
  private PDPageContentStream content;
  private double heightMm;
  private boolean lacking;

  PdfPages() throws IOException {
    regular = font(PDFont.class, REGULAR);
    bold = font(PdfPages.class, BOLD);
  }

  private PDFont font(Class<?> owner, String resource) throws IOException {
    try (InputStream in = owner.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("missing from the program: " + resource);
      }
      return PDType0Font.load(document, in, true);
    }
  }

  /** Begins a page; what is drawn next goes there. */
  void newPage(double widthMm, double pageHeightMm) {
    PDPage page =
        new PDPage(
            new PDRectangle((float) (widthMm * PT_PER_MM), (float) (pageHeightMm * PT_PER_MM)));
    document.addPage(page);
    pages.add(page);
    open(page, pageHeightMm, PDPageContentStream.AppendMode.OVERWRITE);
  }

  /** Goes back to a page, counted from 0. */
  void turnTo(int page) {
    PDRectangle box = pages.get(page).getMediaBox();
    open(pages.get(page), box.getHeight() / PT_PER_MM, PDPageContentStream.AppendMode.APPEND);
  }

  int pageCount() {
    return pages.size();
  }

  private void open(PDPage page, double pageHeightMm, PDPageContentStream.AppendMode mode) {
    heightMm = pageHeightMm;
    draw(
        () -> {
          if (content != null) {
            content.close();
          }
          content = new PDPageContentStream(document, page, mode, true, true);
          content.setLineCapStyle(1);
        });
  }

  /** Writes the document: the same bytes for the same pages, title, time and seed. */
  void write(OutputStream out, String title, Instant time, long seed) throws IOException {
    content.close();
    content = null;
    PDDocumentInformation information = document.getDocumentInformation();
    information.setTitle(title);
    information.setCreator("Selvage");
    information.setCreationDate(GregorianCalendar.from(time.atZone(ZoneOffset.UTC)));
    document.getDocumentCatalog().setLanguage("en");
    PDViewerPreferences preferences =
        new PDViewerPreferences(new org.apache.pdfbox.cos.COSDictionary());
    preferences.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(preferences);
    document.getDocumentCatalog().getCOSObject().setName(COSName.VERSION, "1.7");
    document.setDocumentId(seed);
    document.save(out);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }

  /** The width of a text in millimetres. */
  double width(String text, double sizeMm, boolean inBold) {
    PDFont font = inBold ? bold : regular;
    try {
      return font.getStringWidth(shown(text, font)) / 1000 * sizeMm;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The text, or its beginning and its end where it is too wide. */
  String fitted(String text, double sizeMm, boolean inBold, double widthMm) {
    if (width(text, sizeMm, inBold) <= widthMm) {
      return text;
    }
    int[] letters = text.codePoints().toArray();
    for (int kept = letters.length - 1; kept > 1; kept--) {
      int tail = kept / 3;
      String shorter =
          new String(letters, 0, kept - tail).stripTrailing()
              + "…"
              + new String(letters, letters.length - tail, tail).stripLeading();
      if (width(shorter, sizeMm, inBold) <= widthMm) {
        return shorter;
      }
    }
    return "…";
  }

  /** The text in lines no wider than that; a word that is too wide is shortened. */
  List<String> wrapped(String text, double sizeMm, boolean inBold, double widthMm) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String word : text.strip().split("\\s+", -1)) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (!line.isEmpty() && width(longer, sizeMm, inBold) > widthMm) {
        lines.add(line);
        longer = word;
      }
      line = fitted(longer, sizeMm, inBold, widthMm);
    }
    lines.add(line);
    return lines;
  }

  @Override
  public void box(double x, double y, double width, double height, Shade fill) {
    fill(x, y, width, height, fill.paper());
  }

  @Override
  public void swatch(double x, double y, double width, double height, Lab color) {
    fill(x, y, width, height, screen.of(color));
  }

  private void fill(double x, double y, double width, double height, int rgb) {
    draw(
        () -> {
          setFill(rgb);
          content.addRect(pt(x), up(y + height), pt(width), pt(height));
          content.fill();
        });
  }

  @Override
  public void frame(
      double x, double y, double width, double height, Shade stroke, double lineWidth) {
    draw(
        () -> {
          setStroke(stroke, lineWidth);
          content.addRect(pt(x), up(y + height), pt(width), pt(height));
          content.stroke();
        });
  }

  @Override
  public void disc(double x, double y, double radius, Shade fill) {
    draw(
        () -> {
          setFill(fill.paper());
          circle(x, y, radius);
          content.fill();
        });
  }

  @Override
  public void dot(double x, double y, double radius, Lab color) {
    draw(
        () -> {
          setFill(screen.of(color));
          setStroke(Shade.INK, 0.15);
          circle(x, y, radius);
          content.fillAndStroke();
        });
  }

  private void circle(double x, double y, double r) throws IOException {
    double k = r * CIRCLE;
    content.moveTo(pt(x + r), up(y));
    content.curveTo(pt(x + r), up(y - k), pt(x + k), up(y - r), pt(x), up(y - r));
    content.curveTo(pt(x - k), up(y - r), pt(x - r), up(y - k), pt(x - r), up(y));
    content.curveTo(pt(x - r), up(y + k), pt(x - k), up(y + r), pt(x), up(y + r));
    content.curveTo(pt(x + k), up(y + r), pt(x + r), up(y + k), pt(x + r), up(y));
    content.closePath();
  }

  @Override
  public void line(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth) {
    draw(
        () -> {
          setStroke(stroke, lineWidth);
          content.moveTo(pt(x1), up(y1));
          content.lineTo(pt(x2), up(y2));
          content.stroke();
        });
  }

  @Override
  public void dashes(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth) {
    draw(() -> content.setLineDashPattern(new float[] {pt(1.2), pt(1)}, 0));
    line(x1, y1, x2, y2, stroke, lineWidth);
    draw(() -> content.setLineDashPattern(new float[0], 0));
  }

  @Override
  public void polygon(Shade fill, double... points) {
    draw(
        () -> {
          setFill(fill.paper());
          content.moveTo(pt(points[0]), up(points[1]));
          for (int i = 2; i < points.length; i += 2) {
            content.lineTo(pt(points[i]), up(points[i + 1]));
          }
          content.closePath();
          content.fill();
        });
  }

  @Override
  public void text(
      double x, double y, double size, boolean inBold, Shade fill, Anchor anchor, String text) {
    PDFont font = inBold ? bold : regular;
    double share =
        switch (anchor) {
          case START -> 0;
          case MIDDLE -> 0.5;
          case END -> 1;
        };
    double left = x - (share == 0 ? 0 : share * width(text, size, inBold));
    draw(
        () -> {
          setFill(fill.paper());
          content.beginText();
          content.setFont(font, pt(size));
          content.newLineAtOffset(pt(left), up(y));
          content.showText(shown(text, font));
          content.endText();
        });
  }

  private String shown(String text, PDFont font) {
    StringBuilder shown = new StringBuilder(text.length());
    boolean open = false;
    int[] letters = text.codePoints().toArray();
    for (int letter : letters) {
      if (has(font, letter)) {
        shown.append(open ? "]" : "").appendCodePoint(letter);
        open = false;
      } else {
        shown.append(open ? " " : "[").append(String.format(Locale.ROOT, "U+%04X", letter));
        open = true;
        lacking = true;
      }
    }
    return shown.append(open ? "]" : "").toString();
  }

  /** Whether a letter had to be shown by its number so far. */
  boolean lacksLetters() {
    return lacking;
  }

  private static boolean has(PDFont font, int letter) {
    if (letter >= ' ' && letter <= '~') {
      return true;
    }
    try {
      return !Character.isISOControl(letter) && font.encode(Character.toString(letter)).length > 0;
    } catch (IOException | IllegalArgumentException e) {
      return false;
    }
  }

  private void setFill(int rgb) throws IOException {
    content.setNonStrokingColor(
        (rgb >> 16 & 255) / 255f, (rgb >> 8 & 255) / 255f, (rgb & 255) / 255f);
  }

  private void setStroke(Shade stroke, double lineWidth) throws IOException {
    int rgb = stroke.paper();
    content.setStrokingColor((rgb >> 16 & 255) / 255f, (rgb >> 8 & 255) / 255f, (rgb & 255) / 255f);
    content.setLineWidth(pt(lineWidth));
  }

  private static float pt(double mm) {
    return (float) (mm * PT_PER_MM);
  }

  private float up(double y) {
    return (float) ((heightMm - y) * PT_PER_MM);
  }

  private interface Step {
    void run() throws IOException;
  }

  private static void draw(Step step) {
    try {
      step.run();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
