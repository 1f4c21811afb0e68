package selvage.separation;

import org.apache.pdfbox.cos.COSDictionary;

/** Paints shadings. */
final class ShadingPainter {
  private final PageArtist artist;

  ShadingPainter(PageArtist artist) {
    this.artist = artist;
  }

  void paint(Region region, COSDictionary shading) {
    artist.scope().findings().warning("shading-skipped", artist.scope().where() + ": shading");
  }
}
