package selvage.separation;

/** Paints regions with tiling and shading patterns. */
final class PatternPainter {
  private final PageArtist artist;

  PatternPainter(PageArtist artist) {
    this.artist = artist;
  }

  void paint(Region region, CarriedColor color, boolean stroking, ObjectKind kind) {
    artist.scope().findings().warning("pattern-skipped", artist.scope().where() + ": pattern");
  }
}
