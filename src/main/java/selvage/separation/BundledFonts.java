package selvage.separation;

import java.io.IOException;
import java.io.InputStream;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.FontBoxFont;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.font.CIDFontMapping;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMapping;
import org.apache.pdfbox.pdmodel.font.PDCIDSystemInfo;
import org.apache.pdfbox.pdmodel.font.PDFontDescriptor;

/**
 * Substitutes for fonts that a job does not embed, from the program's own jar. PDFBox would look
 * through the machine's fonts: slow at first, and the same job would print other glyphs elsewhere.
 */
final class BundledFonts implements FontMapper {
  private static final int FIXED_PITCH = 1;
  private static final int SERIF = 1 << 1;
  private static final int ITALIC = 1 << 6;
  private static final int FORCE_BOLD = 1 << 18;
  private static final float BOLD_WEIGHT = 600;

  private final Map<String, TrueTypeFont> fonts = new ConcurrentHashMap<>();

  @Override
  public FontMapping<TrueTypeFont> getTrueTypeFont(String baseFont, PDFontDescriptor descriptor) {
    return new FontMapping<>(substitute(baseFont, descriptor), true);
  }

  @Override
  public FontMapping<FontBoxFont> getFontBoxFont(String baseFont, PDFontDescriptor descriptor) {
    return new FontMapping<>(substitute(baseFont, descriptor), true);
  }

  @Override
  public CIDFontMapping getCIDFont(
      String baseFont, PDFontDescriptor descriptor, PDCIDSystemInfo cidSystemInfo) {
    return new CIDFontMapping(null, substitute(baseFont, descriptor), true);
  }

  private TrueTypeFont substitute(String baseFont, PDFontDescriptor descriptor) {
    String name = baseFont == null ? "" : baseFont.toLowerCase(Locale.ROOT);
    int flags = descriptor == null ? 0 : descriptor.getFlags();
    boolean bold =
        has(name, "bold", "black", "heavy", "demi")
            || (flags & FORCE_BOLD) != 0
            || (descriptor != null && descriptor.getFontWeight() >= BOLD_WEIGHT);
    boolean italic =
        has(name, "italic", "oblique")
            || (flags & ITALIC) != 0
            || (descriptor != null && descriptor.getItalicAngle() != 0);
    String family = "Sans";
    if (has(name, "courier", "mono", "consol", "typewriter") || (flags & FIXED_PITCH) != 0) {
      family = "Mono";
    } else if (!has(name, "helvetica", "arial", "sans")
        && (has(name, "times", "serif", "roman", "georgia", "garamond", "palatino", "minion")
            || (flags & SERIF) != 0)) {
      family = "Serif";
    }
    String style = bold ? (italic ? "BoldItalic" : "Bold") : italic ? "Italic" : "Regular";
    return fonts.computeIfAbsent("Liberation" + family + "-" + style, BundledFonts::load);
  }

  private static boolean has(String name, String... parts) {
    for (String part : parts) {
      if (name.contains(part)) {
        return true;
      }
    }
    return false;
  }

  private static TrueTypeFont load(String font) {
    // The regular sans comes with PDFBox.
    String resource =
        font.equals("LiberationSans-Regular")
            ? "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf"
            : "/fonts/" + font + ".ttf";
    try (InputStream in = BundledFonts.class.getResourceAsStream(resource)) {
      return new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes()));
    } catch (IOException e) {
      throw new IllegalStateException("the jar lacks a readable " + resource, e);
    }
  }
}
