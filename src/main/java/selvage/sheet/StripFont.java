package selvage.sheet;

import java.io.IOException;
import java.io.InputStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import selvage.strip.TextWidth;

/**
 * The typeface of labels, embedded as a subset: Liberation Sans, which comes with PDFBox (SIL Open
 * Font License). Letters that it lacks are shown as a question mark.
 */
final class StripFont implements TextWidth {
  private static final String RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";
  private static final double MM_PER_PT = 25.4 / 72;

  private final PDType0Font font;

  private StripFont(PDType0Font font) {
    this.font = font;
  }

  static StripFont in(PDDocument document) throws IOException {
    try (InputStream in = PDFont.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException("missing from the program: " + RESOURCE);
      }
      return new StripFont(PDType0Font.load(document, in, true));
    }
  }

  PDType0Font font() {
    return font;
  }

  @Override
  public double mm(String text, double sizePt) {
    try {
      return font.getStringWidth(shown(text)) / 1000 * sizePt * MM_PER_PT;
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** The codes of a text as a hexadecimal string; its letters are kept in the subset. */
  String hexString(String text) throws IOException {
    String shown = shown(text);
    shown.codePoints().forEach(font::addToSubset);
    StringBuilder hex = new StringBuilder("<");
    for (byte code : font.encode(shown)) {
      hex.append(Character.forDigit(code >> 4 & 15, 16)).append(Character.forDigit(code & 15, 16));
    }
    return hex.append('>').toString();
  }

  /** To be called once, after the last text. */
  void subset() throws IOException {
    font.subset();
  }

  private String shown(String text) {
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints().forEach(letter -> shown.appendCodePoint(has(letter) ? letter : '?'));
    return shown.toString();
  }

  private boolean has(int letter) {
    if (letter >= ' ' && letter <= '~') {
      return true;
    }
    try {
      return !Character.isISOControl(letter) && font.encode(Character.toString(letter)).length > 0;
    } catch (IOException | IllegalArgumentException e) {
      return false;
    }
  }
}
