package selvage.separation;

import java.awt.geom.Path2D;
import java.io.IOException;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDVectorFont;

/**
 * The outlines of glyphs, each read once, with a finding for each that is not as the job has it.
 */
final class GlyphOutlines {
  private final PageScope scope;
  private final IdentityHashMap<PDFont, Map<Integer, Path2D>> known = new IdentityHashMap<>();

  GlyphOutlines(PageScope scope) {
    this.scope = scope;
  }

  /** A glyph in the font's own units; empty where it can't be drawn. */
  Path2D of(PDFont font, PDVectorFont vectorFont, int code) {
    Map<Integer, Path2D> glyphs = known.get(font);
    if (glyphs == null) {
      glyphs = new HashMap<>();
      known.put(font, glyphs);
      noteSubstitution(font);
    }
    Path2D path = glyphs.get(code);
    if (path == null) {
      path = read(font, vectorFont, code);
      glyphs.put(code, path);
    }
    return path;
  }

  /** A font in words: {@code the font Sans (object 7)}. */
  static String described(PDFont font) {
    String name = font.getName();
    return Place.numbered(name == null ? "the font" : "the font " + name, font.getCOSObject());
  }

  /** Says that a font has no glyph for a code. */
  void noteMissing(PDFont font) {
    scope
        .findings()
        .note("glyph-missing", scope.where() + ": " + described(font) + " lacks a glyph");
  }

  private void noteSubstitution(PDFont font) {
    if (!font.isEmbedded() || font.isDamaged()) {
      scope
          .findings()
          .warning(
              "font-substituted",
              scope.where()
                  + ": "
                  + described(font)
                  + (font.isDamaged()
                      ? " can't be read as it is embedded; another was taken"
                      : " is not embedded; another was taken"));
    }
  }

  private Path2D read(PDFont font, PDVectorFont vectorFont, int code) {
    try {
      if (!vectorFont.hasGlyph(code) && code != 32 && code != 10 && code != 13) {
        noteMissing(font);
      }
      return vectorFont.getNormalizedPath(code);
    } catch (IOException | RuntimeException | StackOverflowError e) {
      scope
          .findings()
          .warning(
              "glyph-not-drawn",
              scope.where() + ": a glyph of " + described(font) + ": " + Reason.of(e));
      return new Path2D.Double();
    }
  }
}
