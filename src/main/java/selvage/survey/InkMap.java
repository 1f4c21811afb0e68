package selvage.survey;

import java.io.IOException;
import java.util.BitSet;
import selvage.separation.Band;
import selvage.separation.BandSink;
import selvage.separation.PageGeometry;

/** Which samples of a page bear ink: one bit each, over the whole MediaBox. */
public final class InkMap implements BandSink {
  private final PageGeometry geometry;
  private final BitSet inked;

  public InkMap(PageGeometry geometry) {
    this.geometry = geometry;
    this.inked = new BitSet(geometry.width() * geometry.height());
  }

  @Override
  public void take(Band band) throws IOException {
    for (int y = band.firstRow(); y < band.firstRow() + band.rows(); y++) {
      int at = y * geometry.width();
      int end;
      for (int x = 0; x < band.width(); x = end) {
        end = band.runEnd(x, y, band.width());
        if (!band.isPaper(band.state(x, y))) {
          inked.set(at + x, at + end);
        }
      }
    }
  }

  public PageGeometry geometry() {
    return geometry;
  }

  /**
   * Whether a rectangle bears no ink. It is widened by a sample on each side first, for ink that
   * falls between sample centres. What lies outside the media bears none.
   *
   * @param left in default user space units, and so the others
   */
  public boolean isBlank(double left, double lower, double right, double upper) {
    double margin = 72 / geometry.dpi() / geometry.userUnit();
    PageGeometry.Window window =
        geometry.window(
            new PageGeometry.Box(
                left - margin,
                lower - margin,
                right - left + 2 * margin,
                upper - lower + 2 * margin));
    for (int y = window.top(); y < window.bottom(); y++) {
      int from = y * geometry.width() + window.left();
      int next = inked.nextSetBit(from);
      if (next >= 0 && next < from + window.right() - window.left()) {
        return false;
      }
    }
    return true;
  }
}
