package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.util.IdentityHashMap;
import java.util.List;

/**
 * The clip in force as a region. PDFBox's graphics state keeps the clipping paths as a list that
 * only grows at its end, and each path object stands in one list only; so each path's own region
 * with all before it is worked out once.
 */
final class ClipCache {
  private static final int MOST = 4096;

  /** Numbers in all regions that are kept. */
  private static final long MOST_KEPT = 8_000_000;

  private final AffineTransform toSamples;
  private final PageGeometry.Window window;
  private final Region whole;
  private final IdentityHashMap<Path2D, Region> known = new IdentityHashMap<>();
  private final Deadline deadline;
  private long kept;

  ClipCache(
      AffineTransform toSamples, PageGeometry.Window window, Region whole, Deadline deadline) {
    this.deadline = deadline;
    this.toSamples = toSamples;
    this.window = window;
    this.whole = whole;
  }

  /** The samples that all paths let through. */
  Region of(List<Path2D> paths) {
    int i = paths.size();
    Region region = null;
    while (region == null && i > 0) {
      region = known.get(paths.get(--i));
    }
    if (region == null) {
      region = whole;
      i = -1;
    }
    for (int k = i + 1; k < paths.size(); k++) {
      Path2D path = paths.get(k);
      EdgeList edges =
          new EdgeList(window.left(), window.top(), window.right(), window.bottom(), deadline);
      Flattener.walk(path, toSamples, Flattener.filling(edges));
      region = region.intersect(edges.toRegion(path.getWindingRule() == Path2D.WIND_EVEN_ODD));
      deadline.check();
      kept += region.length();
      if (known.size() >= MOST || kept > MOST_KEPT) {
        known.clear();
        kept = region.length();
      }
      known.put(path, region);
    }
    return region;
  }
}
