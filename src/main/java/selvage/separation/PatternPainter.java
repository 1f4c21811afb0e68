package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;

/** Paints regions with tiling and shading patterns. */
final class PatternPainter {
  private final PageArtist artist;
  private final ShadingPainter shadings;
  private final TilingPainter tilings;

  PatternPainter(PageArtist artist, ShadingPainter shadings) {
    this.artist = artist;
    this.shadings = shadings;
    this.tilings = new TilingPainter(artist);
  }

  /** Paints a region with a pattern colour. */
  void paint(Region region, CarriedColor color, boolean stroking, ObjectKind kind) {
    artist.scope().enter(Place.numbered("pattern", color.pattern));
    try {
      if (!(color.pattern instanceof COSDictionary pattern)) {
        throw new IOException("it is no dictionary");
      }
      if (pattern.getInt(COSName.PATTERN_TYPE) == 2) {
        shadings.paintPattern(region, pattern, stroking, kind);
      } else if (pattern instanceof COSStream stream) {
        tilings.paint(region, stream, color, stroking);
      } else {
        throw new IOException("it is neither tiling nor shading");
      }
    } catch (ContentLimits.PassedException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      artist
          .scope()
          .findings()
          .warning("pattern-skipped", artist.scope().where() + " was skipped: " + Reason.of(e));
    } finally {
      artist.scope().leave();
    }
  }
}
